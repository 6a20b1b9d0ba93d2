"""Published versions of the checklist. Never edited once used: a changed meaning is a new code."""

from django.db import models

from teaching.models.append_only import Record, one_of
from teaching.rules import vocabulary as words


class ChecklistVersion(Record):
    """One published version; `content` is the whole file it came from, `sha256` of its canonical form."""

    code = models.CharField(max_length=40)
    number = models.PositiveIntegerField()
    sha256 = models.CharField(max_length=64)
    content = models.JSONField()
    published_at = models.DateTimeField()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["code", "number"], name="checklist_version_number")]

    def __str__(self):
        return f"{self.code} {self.number}"


class ChecklistRow(Record):
    """One step or topic. `code` keeps its meaning for good; texts are {lang: text} in the version's content."""

    version = models.ForeignKey(ChecklistVersion, models.PROTECT, related_name="rows")
    code = models.CharField(max_length=40)
    procedure = models.CharField(max_length=20)
    phase = models.CharField(max_length=20, blank=True)
    position = models.PositiveIntegerField()
    applies = models.CharField(max_length=200)
    essential = models.CharField(max_length=200)
    decision = models.BooleanField(default=False)
    hard_minimum = models.BooleanField(default=False)
    looking = models.BooleanField(default=False)
    practice_share = models.CharField(max_length=12)
    evidence_group = models.CharField(max_length=40, blank=True)
    lends_to = models.JSONField(default=list)
    reopened_by = models.JSONField(default=list)
    continues = models.CharField(max_length=40, blank=True)

    class Meta:
        ordering = ["position"]
        constraints = [
            models.UniqueConstraint(fields=["version", "code"], name="checklist_row_code"),
            one_of("procedure", words.PROCEDURES, "checklist_row_procedure_known"),
            one_of("practice_share", ("all", "one of two", "none"), "checklist_row_practice_share_known"),
        ]
