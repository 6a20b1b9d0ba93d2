"""Figures kept so that a board opens fast. Never a source: used only while everything they came from still matches."""

from django.db import models

from teaching.models.append_only import DERIVED
from teaching.models.stays import Stay


class StayNow(models.Model):
    """One row a stay: who and where for the board, and the summary of `assess` with what it was worked out from.

    `outlook` is what the discharge list shows; it is worked out when first asked for, and kept with what it came from.
    `learned` is one finished stay's share in the unit's learning, kept in the same way.
    """

    keeps = DERIVED

    stay = models.OneToOneField(Stay, models.CASCADE, related_name="now")
    unit = models.ForeignKey("teaching.Unit", models.PROTECT, related_name="+")
    state = models.CharField(max_length=12)
    bed = models.CharField(max_length=20, blank=True)
    name = models.CharField(max_length=170)
    born = models.DateField()
    mrn = models.CharField(max_length=40)
    planned_at = models.DateTimeField(null=True)
    next_due_at = models.DateTimeField(null=True)
    revision = models.PositiveIntegerField(default=1)
    assessed = models.JSONField(default=dict)
    assessed_revision = models.PositiveIntegerField(default=0)
    policy_version = models.CharField(max_length=64, blank=True)
    checklist_version = models.CharField(max_length=60, blank=True)
    rules_version = models.CharField(max_length=20, blank=True)
    holds_until = models.DateTimeField(null=True)
    outlook = models.JSONField(default=dict)
    outlook_from = models.CharField(max_length=200, blank=True)
    outlook_until = models.DateTimeField(null=True)
    learned = models.JSONField(default=dict)
    learned_from = models.CharField(max_length=200, blank=True)

    class Meta:
        indexes = [
            models.Index(fields=["unit", "state"], name="stay_now_unit_state"),
            models.Index(fields=["unit", "planned_at"], name="stay_now_unit_planned"),
            models.Index(fields=["holds_until"], name="stay_now_holds_until"),
        ]
