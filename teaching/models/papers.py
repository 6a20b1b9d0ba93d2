"""Papers that were kept: what they said, frozen, and the bytes that were printed."""

from django.db import models

from teaching.models.append_only import ClinicalRecord, Record, number_field


class Paper(ClinicalRecord):
    """One kept paper of one stay. `content` is what it says; `revision` the facts it came from (`stay_now`).

    Signed papers carry who, when, the meaning of the signature and how it was proved.
    """

    stay = models.ForeignKey("teaching.Stay", models.PROTECT, related_name="papers")
    kind = models.CharField(max_length=30)
    number = number_field()
    content = models.JSONField()
    content_sha256 = models.CharField(max_length=64)
    revision = models.PositiveIntegerField()
    policy_version = models.CharField(max_length=64)
    code_version = models.CharField(max_length=40)
    signed_by = models.ForeignKey("teaching.Clinician", models.PROTECT, null=True, related_name="+")
    signed_at = models.DateTimeField(null=True)
    meaning = models.CharField(max_length=200, blank=True)
    proof = models.CharField(max_length=40, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["stay", "kind", "number"], name="paper_number"),
            models.CheckConstraint(
                condition=models.Q(signed_at__isnull=True, signed_by__isnull=True)
                | models.Q(signed_at__isnull=False, signed_by__isnull=False),
                name="paper_signed_by_somebody",
            ),
        ]


class PaperFile(ClinicalRecord):
    """The bytes of a kept paper: it reprints from these, byte for byte."""

    paper = models.OneToOneField(Paper, models.PROTECT, related_name="file")
    sha256 = models.CharField(max_length=64)
    bytes = models.BinaryField()


class StaffPaper(Record):
    """A kept paper about one nurse or a unit's staff; the same columns, no stay."""

    unit = models.ForeignKey("teaching.Unit", models.PROTECT, related_name="staff_papers")
    nurse = models.ForeignKey("teaching.Clinician", models.PROTECT, null=True, related_name="+")
    kind = models.CharField(max_length=30)
    number = number_field()
    content = models.JSONField()
    content_sha256 = models.CharField(max_length=64)
    code_version = models.CharField(max_length=40)
    sha256 = models.CharField(max_length=64)
    bytes = models.BinaryField()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["unit", "kind", "number"], name="staff_paper_number")]
