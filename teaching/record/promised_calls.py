"""Calls promised on a kept sheet of leaving against the plan: until when, by whom. One query, however many they are."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Exists, OuterRef, Q

from teaching.models import Event, Paper, PlannedHome, StayEvent, Unit
from teaching.rules.paper_kinds import AGAINST_PLAN


@dataclass(frozen=True, slots=True)
class Promise:
    """What the newest sheet says: signed when, to be rung `by` then and by whom (UTC)."""

    signed_at: datetime
    by: datetime
    who: str


def promised_calls(unit: Unit, since: datetime) -> dict[int, Promise]:
    """By stay, of the sheets signed since a moment. Who stayed after all is promised nothing.

    They stayed where something at the bedside, a planned leaving, or anything of the stay but leaving came later.
    """
    signed = OuterRef("signed_at")
    stayed = (
        Q(Exists(Event.objects.filter(stay=OuterRef("stay"), opened_at__gt=signed)))
        | Q(Exists(PlannedHome.objects.filter(stay=OuterRef("stay"), recorded_at__gt=signed)))
        | Q(Exists(StayEvent.objects.filter(stay=OuterRef("stay"), happened_at__gt=signed).exclude(kind="left")))
    )
    kept = Paper.objects.filter(kind=AGAINST_PLAN, stay__now__unit=unit, signed_at__gte=since).exclude(stayed)
    rows = kept.order_by("number").values_list("stay_id", "signed_at", "content__call_due", "content__call_by")
    return {
        stay: Promise(signed_at, datetime.fromisoformat(due), who or "")
        for stay, signed_at, due, who in rows if signed_at and due
    }
