"""Units, their settings, and the hospital's own thresholds."""

from django.db import models

from teaching.models.append_only import Record, number_field


class Unit(Record):
    name = models.CharField(max_length=120)
    zone = models.CharField(max_length=60)

    def __str__(self):
        return self.name


class UnitSetting(Record):
    """How one unit works. `shifts` is [{name, starts "07:30", ends "19:30"}], `phones` is [{label, number, hours}].

    `slots` is what only the unit's clinician may fill on a sheet for home, such as {"press-minutes": "10"}.
    """

    unit = models.ForeignKey(Unit, models.PROTECT, related_name="settings")
    number = number_field()
    shifts = models.JSONField()
    leave_hour = models.PositiveSmallIntegerField(default=12)
    languages = models.JSONField(default=list)
    phrases = models.JSONField(default=dict)
    phones = models.JSONField(default=list)
    slots = models.JSONField(default=dict)
    checklist = models.ForeignKey("teaching.ChecklistVersion", models.PROTECT, related_name="+")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["unit", "number"], name="unit_setting_number"),
            models.CheckConstraint(condition=models.Q(leave_hour__lte=23), name="unit_setting_leave_hour"),
        ]


class PolicyVersion(Record):
    """Overrides of the thresholds in `rules/policy.py`, for one unit or (unit None) the whole hospital."""

    unit = models.ForeignKey(Unit, models.PROTECT, null=True, related_name="policies")
    number = number_field()
    overrides = models.JSONField()
    why = models.TextField()
    effective_from = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["unit", "number"], name="policy_number", condition=models.Q(unit__isnull=False)
            ),
            models.UniqueConstraint(
                fields=["number"], name="policy_number_hospital", condition=models.Q(unit__isnull=True)
            ),
        ]
