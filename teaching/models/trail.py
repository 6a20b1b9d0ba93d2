"""Who did what and when: trail lines, the seals that link them, and the two-person permit to purge a stay.

Text references only, no foreign keys: a line outlives what it describes. No name, number or clinical value in it.
"""

from django.db import models
from django.utils import timezone

from teaching.models.append_only import Record


class TrailLine(models.Model):
    """One act. `mac` is a keyed MAC of the line itself; `seal` rows link batches of lines."""

    keeps = "record"

    uid = models.UUIDField(unique=True, editable=False)
    at = models.DateTimeField(default=timezone.now)
    actor = models.CharField(max_length=40, blank=True)
    role = models.CharField(max_length=80, blank=True)
    verb = models.CharField(max_length=60)
    outcome = models.CharField(max_length=20)
    unit = models.CharField(max_length=40, blank=True)
    stay = models.CharField(max_length=40, blank=True)
    object = models.CharField(max_length=120, blank=True)
    origin = models.CharField(max_length=60, blank=True)
    request_id = models.CharField(max_length=40, blank=True)
    key_id = models.CharField(max_length=20)
    mac = models.CharField(max_length=64)

    class Meta:
        indexes = [
            models.Index(fields=["stay", "at"], name="trail_stay"),
            models.Index(fields=["at"], name="trail_at"),
            models.Index(fields=["unit", "id"], name="trail_unit"),
        ]


class Seal(models.Model):
    """A MAC over the MACs of a range of lines and over the seal before it."""

    keeps = "record"

    number = models.PositiveIntegerField(unique=True)
    first_id = models.BigIntegerField()
    last_id = models.BigIntegerField()
    count = models.PositiveIntegerField()
    previous_mac = models.CharField(max_length=64, blank=True)
    key_id = models.CharField(max_length=20)
    mac = models.CharField(max_length=64)
    sealed_at = models.DateTimeField(default=timezone.now)


class Purge(Record):
    """Two people agree that one stay is removed. Text references, so the permit outlives the stay."""

    stay = models.CharField(max_length=40)
    stay_key = models.BigIntegerField()
    person_key = models.BigIntegerField(null=True)
    asked_by = models.ForeignKey("teaching.Clinician", models.PROTECT, related_name="+")
    agreed_by = models.ForeignKey("teaching.Clinician", models.PROTECT, related_name="+")
    why = models.CharField(max_length=300)

    class Meta:
        constraints = [
            models.CheckConstraint(condition=~models.Q(asked_by=models.F("agreed_by")), name="purge_needs_two_people")
        ]


class PurgeDone(Record):
    """Closes the permit: from here on the guards hold again for that stay."""

    purge = models.OneToOneField(Purge, models.PROTECT, related_name="done")
    rows = models.PositiveIntegerField()
