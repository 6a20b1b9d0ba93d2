"""Cautions, stored at the tap with the words that were shown, and the steps taken about them."""

from django.db import models

from teaching.models.append_only import ClinicalRecord, choices, number_field, one_of
from teaching.models.stays import Stay, Stoma
from teaching.rules import vocabulary as words


class Caution(ClinicalRecord):
    """`event_uid` names the session it was tapped in, which may not be signed yet."""

    stay = models.ForeignKey(Stay, models.PROTECT, related_name="cautions")
    stoma = models.ForeignKey(Stoma, models.PROTECT, null=True, related_name="+")
    event_uid = models.UUIDField(null=True)
    sign = models.CharField(max_length=40)
    list = models.CharField(max_length=10, choices=choices(words.CAUTION_LISTS))
    words = models.CharField(max_length=300)
    policy_version = models.CharField(max_length=64)
    at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["stay"], name="caution_stay")]
        constraints = [one_of("list", words.CAUTION_LISTS, "caution_list_known")]


class CautionStep(ClinicalRecord):
    caution = models.ForeignKey(Caution, models.PROTECT, related_name="steps")
    number = number_field()
    kind = models.CharField(max_length=10, choices=choices(words.CAUTION_STEPS))
    whom = models.CharField(max_length=120, blank=True)
    answer = models.CharField(max_length=300, blank=True)
    look_again_at = models.DateTimeField(null=True)
    happened_at = models.DateTimeField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["caution", "number"], name="caution_step_number"),
            one_of("kind", words.CAUTION_STEPS, "caution_step_kind_known"),
        ]
