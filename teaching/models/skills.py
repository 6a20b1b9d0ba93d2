"""What a nurse must be seen to do, what was seen, and who teaches this shift. No person in care is named here."""

from django.db import models

from teaching.models.append_only import Record, choices, number_field, one_of
from teaching.models.staff import SKILLS, Clinician
from teaching.rules import vocabulary as words

SELF_RATING_LEAST, SELF_RATING_MOST = 1, 6


class SkillVersion(Record):
    """A published version of one skill: what is to be observed and how often. Never edited once used."""

    skill = models.CharField(max_length=20, choices=choices(SKILLS))
    number = number_field()
    sha256 = models.CharField(max_length=64)
    content = models.JSONField()
    published_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["skill", "number"], name="skill_version_number"),
            one_of("skill", SKILLS, "skill_version_skill_known"),
        ]


class Practice(Record):
    """One observed practice. `levels` is {row: "1".."5" or "X"} (Bondy 1983); `takes_back`: one entered in error."""

    nurse = models.ForeignKey(Clinician, models.PROTECT, related_name="practices")
    assessor = models.ForeignKey(Clinician, models.PROTECT, related_name="+")
    skill_version = models.ForeignKey(SkillVersion, models.PROTECT, related_name="practices")
    unit = models.ForeignKey("teaching.Unit", models.PROTECT, related_name="+")
    number = number_field()
    setting = models.CharField(max_length=12, choices=choices(words.PRACTICE_SETTINGS))
    levels = models.JSONField(default=dict)
    at = models.DateTimeField()
    words = models.CharField(max_length=500, blank=True)
    takes_back = models.OneToOneField("self", models.PROTECT, null=True, related_name="taken_back")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["nurse", "skill_version", "number"], name="practice_number"),
            one_of("setting", words.PRACTICE_SETTINGS, "practice_setting_known"),
            models.CheckConstraint(condition=~models.Q(nurse=models.F("assessor")), name="practice_never_of_oneself"),
        ]


class SelfRating(Record):
    """How sure a nurse feels of a skill, 1 to 6, in their own words. Kept apart from what was seen."""

    nurse = models.ForeignKey(Clinician, models.PROTECT, related_name="self_ratings")
    skill = models.CharField(max_length=20, choices=choices(SKILLS))
    number = number_field()
    confidence = models.PositiveSmallIntegerField()
    at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["nurse", "skill", "number"], name="self_rating_number"),
            one_of("skill", SKILLS, "self_rating_skill_known"),
            models.CheckConstraint(
                condition=models.Q(confidence__gte=SELF_RATING_LEAST, confidence__lte=SELF_RATING_MOST),
                name="self_rating_one_to_six",
            ),
        ]


class ObservationAsk(Record):
    """A nurse asks to be observed, or takes it back; the newest number wins. `paired_at`: the due change."""

    nurse = models.ForeignKey(Clinician, models.PROTECT, related_name="observation_asks")
    skill = models.CharField(max_length=20, choices=choices(SKILLS))
    unit = models.ForeignKey("teaching.Unit", models.PROTECT, related_name="+")
    number = number_field()
    state = models.CharField(max_length=10, choices=choices(words.ASK_STATES))
    paired_at = models.DateTimeField(null=True)
    bed = models.CharField(max_length=20, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["nurse", "skill", "unit", "number"], name="observation_ask_number"),
            one_of("skill", SKILLS, "observation_ask_skill_known"),
            one_of("state", words.ASK_STATES, "observation_ask_state_known"),
        ]


class HuddleTick(Record):
    """Who teaches in one shift of one unit, ticked at the huddle; the newest number wins."""

    unit = models.ForeignKey("teaching.Unit", models.PROTECT, related_name="huddle_ticks")
    day = models.DateField()
    shift = models.CharField(max_length=40)
    clinician = models.ForeignKey(Clinician, models.PROTECT, related_name="+")
    number = number_field()
    may_teach = models.BooleanField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["unit", "day", "shift", "clinician", "number"], name="huddle_tick_number"),
        ]
