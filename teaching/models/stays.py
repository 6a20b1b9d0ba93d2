"""The person, the stay, the stoma, what it wears, and who is learning to care for it."""

from django.db import models

from teaching.models.append_only import ClinicalRecord, Record, choices, number_field, one_of
from teaching.rules import vocabulary as words


class Person(Record):
    pass


class PersonDetails(Record):
    person = models.ForeignKey(Person, models.PROTECT, related_name="details")
    number = number_field()
    authority = models.CharField(max_length=60)
    mrn = models.CharField(max_length=40)
    family_name = models.CharField(max_length=80)
    given_names = models.CharField(max_length=80)
    born = models.DateField()
    language = models.CharField(max_length=20, default="en")

    class Meta:
        constraints = [models.UniqueConstraint(fields=["person", "number"], name="person_details_number")]
        indexes = [models.Index(fields=["authority", "mrn"], name="person_details_mrn")]


class Stay(Record):
    """One admission with a stoma; its unit, bed and state are the newest stay event."""

    person = models.ForeignKey(Person, models.PROTECT, related_name="stays")
    zone = models.CharField(max_length=60)


class StayDetails(ClinicalRecord):
    stay = models.ForeignKey(Stay, models.PROTECT, related_name="details")
    number = number_field()
    surgery_at = models.DateTimeField(null=True)
    taught_before = models.BooleanField(default=False)
    authority = models.CharField(max_length=60, blank=True)
    visit_number = models.CharField(max_length=40, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["stay", "number"], name="stay_details_number"),
            models.UniqueConstraint(
                fields=["authority", "visit_number"],
                condition=models.Q(number=1) & ~models.Q(visit_number=""),
                name="stay_visit_number_once",
            ),
        ]


class StayEvent(ClinicalRecord):
    stay = models.ForeignKey(Stay, models.PROTECT, related_name="events")
    number = number_field()
    kind = models.CharField(max_length=12, choices=choices(words.STAY_EVENTS))
    unit = models.ForeignKey("teaching.Unit", models.PROTECT, related_name="+")
    bed = models.CharField(max_length=20, blank=True)
    left_to = models.CharField(max_length=80, blank=True)
    why = models.CharField(max_length=200, blank=True)
    happened_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["stay", "number"], name="stay_event_number"),
            one_of("kind", words.STAY_EVENTS, "stay_event_kind_known"),
        ]


class PlannedHome(ClinicalRecord):
    """The planned moment of leaving; the newest number wins. `at` None: no day planned."""

    number = number_field()
    at = models.DateTimeField(null=True)
    goes_to = models.CharField(max_length=10, default="home", choices=choices(words.GOES_TO))
    why = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["stay", "number"], name="planned_home_number"),
            one_of("goes_to", words.GOES_TO, "planned_home_goes_to_known"),
        ]


class Stoma(ClinicalRecord):
    stay = models.ForeignKey(Stay, models.PROTECT, related_name="stomas")
    label = models.CharField(max_length=40)
    kind = models.CharField(max_length=20, choices=choices(words.STOMA_KINDS))
    construction = models.CharField(max_length=20, choices=choices(words.CONSTRUCTIONS))
    side = models.CharField(max_length=10, choices=choices(words.SIDES))
    formed_at = models.DateTimeField(null=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["stay", "label"], name="stoma_label_once"),
            one_of("kind", words.STOMA_KINDS, "stoma_kind_known"),
            one_of("construction", words.CONSTRUCTIONS, "stoma_construction_known"),
            one_of("side", words.SIDES, "stoma_side_known"),
        ]


def mm_between(field, low, high, name):
    """A CHECK on a length in mm, where it is given."""
    return models.CheckConstraint(
        condition=models.Q(**{f"{field}__isnull": True}) | models.Q(**{f"{field}__gte": low, f"{field}__lte": high}),
        name=name,
    )


class Kit(ClinicalRecord):
    """What the stoma wears from `happened_at` on. mm and hours; interval None: nobody has said when a change is due."""

    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="kits")
    number = number_field()
    pieces = models.CharField(max_length=5, choices=choices(words.PIECES))
    shape = models.CharField(max_length=8, choices=choices(words.SHAPES))
    opening = models.CharField(max_length=10, choices=choices(words.OPENINGS))
    closure = models.CharField(max_length=10, choices=choices(words.CLOSURES))
    outlet = models.CharField(max_length=10, blank=True, choices=choices(words.OUTLETS))
    items = models.JSONField(default=list)
    interval_hours = models.PositiveSmallIntegerField(null=True)
    pre_cut_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True)
    cut_limit_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True)
    happened_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["stoma", "number"], name="kit_number"),
            one_of("pieces", words.PIECES, "kit_pieces_known"),
            one_of("shape", words.SHAPES, "kit_shape_known"),
            one_of("opening", words.OPENINGS, "kit_opening_known"),
            one_of("closure", words.CLOSURES, "kit_closure_known"),
            one_of("outlet", words.OUTLETS, "kit_outlet_known", blank=True),
            mm_between("pre_cut_mm", 8, 120, "kit_pre_cut_mm"),
            mm_between("cut_limit_mm", 8, 150, "kit_cut_limit_mm"),
            models.CheckConstraint(
                condition=models.Q(interval_hours__isnull=True)
                | models.Q(interval_hours__gte=1, interval_hours__lte=168),
                name="kit_interval_within_a_week",
            ),
        ]


class Learner(ClinicalRecord):
    stay = models.ForeignKey(Stay, models.PROTECT, related_name="learners")
    kind = models.CharField(max_length=10, choices=choices(words.LEARNER_KINDS))
    name = models.CharField(max_length=120, blank=True)
    relation = models.CharField(max_length=60, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["stay"], condition=models.Q(kind="person"), name="learner_one_person_a_stay"
            ),
            one_of("kind", words.LEARNER_KINDS, "learner_kind_known"),
        ]


class LearnerConsent(ClinicalRecord):
    """One yes or no, the person's to this helper or the helper's own; it can be taken back by a newer row."""

    learner = models.ForeignKey(Learner, models.PROTECT, related_name="consents")
    number = number_field()
    whose = models.CharField(max_length=10, choices=choices(words.CONSENT_WHOSE))
    yes = models.BooleanField()
    at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["learner", "number"], name="learner_consent_number"),
            one_of("whose", words.CONSENT_WHOSE, "learner_consent_whose_known"),
        ]


class LearnerHours(ClinicalRecord):
    """When a helper is there: `week` is 168 characters 0/1 from Monday 00:00; `exceptions` [{from, to, there}]."""

    learner = models.ForeignKey(Learner, models.PROTECT, related_name="hours")
    number = number_field()
    week = models.CharField(max_length=168)
    exceptions = models.JSONField(default=list)
    lives_in = models.BooleanField(default=False)
    minutes_away = models.PositiveSmallIntegerField(null=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["learner", "number"], name="learner_hours_number"),
            models.CheckConstraint(condition=models.Q(week__regex=r"^[01]{168}$"), name="learner_hours_week"),
        ]


class LearnerNeed(ClinicalRecord):
    """What makes learning harder for this learner. `present` False takes it back."""

    learner = models.ForeignKey(Learner, models.PROTECT, related_name="needs")
    number = number_field()
    code = models.CharField(max_length=20, choices=choices(words.NEEDS))
    words = models.CharField(max_length=200, blank=True)
    present = models.BooleanField(default=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["learner", "number"], name="learner_need_number"),
            one_of("code", words.NEEDS, "learner_need_known"),
        ]


class BodyEvent(ClinicalRecord):
    """A state that began or ended; `stoma` None concerns the whole person."""

    stoma = models.ForeignKey(Stoma, models.PROTECT, null=True, related_name="body_events")
    code = models.CharField(max_length=20, choices=choices(words.BODY_EVENTS))
    change = models.CharField(max_length=6, choices=choices(words.CHANGES))
    happened_at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["stay"], name="body_event_stay")]
        constraints = [
            one_of("code", words.BODY_EVENTS, "body_event_known"),
            one_of("change", words.CHANGES, "body_event_change_known"),
        ]
