"""What happened at the bedside: the event, each rater's signed account of it, and what the account holds.

`event` is identity. `account` is one rater's whole statement about it; a correction is a new account, never a patch.
The effective account is the highest number per (event, rater) that is not an addendum.
"""

from django.db import models

from teaching.models.append_only import ClinicalRecord, choices, number_field, one_of
from teaching.models.stays import Learner, Stay, Stoma, mm_between
from teaching.rules import vocabulary as words


class Event(ClinicalRecord):
    stay = models.ForeignKey(Stay, models.PROTECT, related_name="bedside_events")
    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="+")
    kind = models.CharField(max_length=10, choices=choices(words.EVENT_KINDS))
    procedure = models.CharField(max_length=20, choices=choices(words.PROCEDURES))
    checklist = models.ForeignKey("teaching.ChecklistVersion", models.PROTECT, null=True, related_name="+")
    opened_at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["stay", "opened_at"], name="event_stay")]
        constraints = [
            one_of("kind", words.EVENT_KINDS, "event_kind_known"),
            one_of("procedure", words.PROCEDURES, "event_procedure_known"),
        ]


class Account(ClinicalRecord):
    """One rater's statement. Claimed times carry the zone name and the offset in minutes they were claimed in."""

    event = models.ForeignKey(Event, models.PROTECT, related_name="accounts")
    rater = models.ForeignKey("teaching.Clinician", models.PROTECT, related_name="+")
    rater_grade = models.CharField(max_length=20, choices=choices(words.GRADES))
    sign_off = models.ForeignKey("teaching.SignOff", models.PROTECT, null=True, related_name="+")
    place = models.CharField(max_length=10, blank=True, choices=choices(words.PLACES))
    language = models.CharField(max_length=20, blank=True)
    interpreter = models.CharField(max_length=10, blank=True, choices=choices(words.INTERPRETERS))
    role = models.CharField(max_length=10, default="taught", choices=choices(words.ACCOUNT_ROLES))
    number = number_field()
    kind = models.CharField(max_length=12, default="original", choices=choices(words.ACCOUNT_KINDS))
    replaces = models.ForeignKey("self", models.PROTECT, null=True, related_name="+")
    reason = models.CharField(max_length=300, blank=True)
    began_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True)
    zone = models.CharField(max_length=60)
    began_offset = models.SmallIntegerField()
    ended_offset = models.SmallIntegerField(null=True)
    client_skew_s = models.IntegerField(null=True)
    ended_how = models.CharField(max_length=12, default="finished", choices=choices(words.ENDED_HOW))
    content_sha256 = models.CharField(max_length=64)
    meaning = models.CharField(max_length=200)
    signed_at = models.DateTimeField()
    proof = models.CharField(max_length=40)

    class Meta:
        indexes = [models.Index(fields=["stay", "began_at"], name="account_stay")]
        constraints = [
            models.UniqueConstraint(fields=["event", "rater", "number"], name="account_number"),
            models.CheckConstraint(
                condition=models.Q(ended_at__isnull=True) | models.Q(ended_at__gte=models.F("began_at")),
                name="account_ends_after_it_begins",
            ),
            one_of("rater_grade", words.GRADES, "account_grade_known"),
            one_of("place", words.PLACES, "account_place_known", blank=True),
            one_of("interpreter", words.INTERPRETERS, "account_interpreter_known", blank=True),
            one_of("role", words.ACCOUNT_ROLES, "account_role_known"),
            one_of("kind", words.ACCOUNT_KINDS, "account_kind_known"),
            one_of("ended_how", words.ENDED_HOW, "account_ended_how_known"),
        ]


class Cosign(ClinicalRecord):
    """A registered nurse puts their name beside a student's account."""

    account = models.OneToOneField(Account, models.PROTECT, related_name="cosign")
    cosigner_grade = models.CharField(max_length=20, choices=choices(words.GRADES))
    at = models.DateTimeField()
    proof = models.CharField(max_length=40)


class Rating(ClinicalRecord):
    """One row, one learner, in one account. Reported shows, never counts."""

    account = models.ForeignKey(Account, models.PROTECT, related_name="ratings")
    learner = models.ForeignKey(Learner, models.PROTECT, related_name="+")
    code = models.CharField(max_length=40)
    row = models.ForeignKey("teaching.ChecklistRow", models.PROTECT, related_name="+")
    answer = models.CharField(
        max_length=12, choices=[(code, words.ANSWERS[code].words) for code in words.STORED_ANSWERS]
    )
    practice = models.BooleanField(default=False)
    reported = models.BooleanField(default=False)
    reason = models.CharField(max_length=12, blank=True, choices=choices(words.LOWER_REASONS))
    aids = models.JSONField(default=list)
    entered_as = models.CharField(max_length=8, default="step", choices=choices(words.ENTERED_AS))
    note = models.CharField(max_length=300, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["account", "code", "learner"], name="rating_once"),
            one_of("answer", words.STORED_ANSWERS, "rating_answer_known"),
            one_of("reason", words.LOWER_REASONS, "rating_reason_known", blank=True),
            one_of("entered_as", words.ENTERED_AS, "rating_entered_as_known"),
        ]


class Finding(ClinicalRecord):
    """What one rater saw at one event, once. Lengths in mm; `skin` is {region: what was seen there}."""

    account = models.OneToOneField(Account, models.PROTECT, related_name="finding")
    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="findings")
    colour = models.CharField(max_length=12, blank=True, choices=choices(words.COLOURS))
    wet = models.CharField(max_length=6, blank=True, choices=choices(words.WETNESS))
    edge = models.CharField(max_length=10, blank=True, choices=choices(words.EDGES))
    stands = models.CharField(max_length=8, blank=True, choices=choices(words.STANDS))
    width_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True)
    height_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True)
    opening_width_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True)
    opening_height_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True)
    rod_length_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True)
    stents = models.PositiveSmallIntegerField(null=True)
    stent_length_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True)
    skin = models.JSONField(default=dict)
    noticed_by = models.CharField(max_length=8, blank=True, choices=choices(words.NOTICED_BY))
    bleeding = models.CharField(max_length=12, blank=True, choices=choices(words.BLEEDING))
    wear_end = models.CharField(max_length=8, blank=True, choices=choices(words.WEAR_ENDS))
    leak_track = models.CharField(max_length=10, blank=True, choices=choices(words.SKIN_REGIONS))
    powder_where = models.CharField(max_length=60, blank=True)

    class Meta:
        constraints = [
            one_of("colour", words.COLOURS, "finding_colour_known", blank=True),
            one_of("wet", words.WETNESS, "finding_wet_known", blank=True),
            one_of("edge", words.EDGES, "finding_edge_known", blank=True),
            one_of("stands", words.STANDS, "finding_stands_known", blank=True),
            one_of("noticed_by", words.NOTICED_BY, "finding_noticed_by_known", blank=True),
            one_of("bleeding", words.BLEEDING, "finding_bleeding_known", blank=True),
            one_of("wear_end", words.WEAR_ENDS, "finding_wear_end_known", blank=True),
            one_of("leak_track", words.SKIN_REGIONS, "finding_leak_track_known", blank=True),
            mm_between("width_mm", 8, 120, "finding_width_mm"),
            mm_between("height_mm", 8, 120, "finding_height_mm"),
            mm_between("opening_width_mm", 8, 150, "finding_opening_width_mm"),
            mm_between("opening_height_mm", 8, 150, "finding_opening_height_mm"),
        ]


class OutputTotal(ClinicalRecord):
    """A 24-hour total in mL as read from the fluid chart, up to `until_at`; the newest number for a time wins."""

    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="totals")
    until_at = models.DateTimeField()
    number = number_field()
    ml = models.PositiveIntegerField()
    source = models.CharField(max_length=20, default="chart")

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["stoma", "until_at", "number"], name="output_total_number"),
            models.CheckConstraint(condition=models.Q(ml__lte=20000), name="output_total_ml"),
        ]


class NothingSince(ClinicalRecord):
    """"Nothing out since ...", as asked at the bedside; never inferred. The newest number wins; None: it has worked."""

    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="nothing")
    number = number_field()
    since_at = models.DateTimeField(null=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["stoma", "number"], name="nothing_since_number")]
