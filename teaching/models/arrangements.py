"""What must be in place or is agreed to happen around going home, and what was heard afterwards."""

from django.db import models

from teaching.models.append_only import ClinicalRecord, choices, number_field, one_of
from teaching.models.stays import Stay
from teaching.rules import vocabulary as words


class Arrangement(ClinicalRecord):
    """The newest number of a code and key wins. `key` tells apart what there may be several of: visits, appointments.

    `due_at` is when it is to happen; `details` holds what that code asks for, as text, yes or no, or a number.
    """

    code = models.CharField(max_length=30)
    key = models.CharField(max_length=36, blank=True)
    number = number_field()
    state = models.CharField(max_length=12)
    value = models.CharField(max_length=200, blank=True)
    details = models.JSONField(default=dict)
    due_at = models.DateTimeField(null=True)
    happened_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["stay", "code", "key", "number"], name="arrangement_number"),
        ]


class AfterHome(ClinicalRecord):
    """One try at a call after leaving, or a coming back: who was reached, what was heard, in `told` by question."""

    stay = models.ForeignKey(Stay, models.PROTECT, related_name="after_home")
    kind = models.CharField(max_length=12, choices=choices(words.AFTER_HOME))
    at = models.DateTimeField()
    told = models.JSONField(default=dict)
    words = models.CharField(max_length=500, blank=True)

    class Meta:
        indexes = [models.Index(fields=["stay"], name="after_home_stay")]
        constraints = [one_of("kind", words.AFTER_HOME, "after_home_kind_known")]
