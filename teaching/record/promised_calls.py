"""Calls promised on a kept sheet of leaving against the plan: until when, by whom. One query, however many they are."""

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db.models import Exists, OuterRef, Q, QuerySet

from teaching.models import Event, Paper, PlannedHome, Stay, StayEvent, Unit
from teaching.rules.paper_kinds import AGAINST_PLAN


@dataclass(frozen=True, slots=True)
class Promise:
    """What the newest sheet says: signed when, to be rung `by` then and by whom (UTC)."""

    signed_at: datetime
    by: datetime
    who: str


def promised_calls(unit: Unit, since: datetime) -> dict[int, Promise]:
    """By stay, of the sheets signed since a moment. Who stayed after all is promised nothing."""
    kept = _not_stayed(since).filter(stay__now__unit=unit).order_by("number")
    rows = kept.values_list("stay_id", "signed_at", "content__call_due", "content__call_by")
    return {
        stay: Promise(signed_at, datetime.fromisoformat(due), who or "")
        for stay, signed_at, due, who in rows if signed_at and due
    }


def going_against_plan(stay: Stay, since: datetime) -> UUID | None:
    """The newest sheet signed since a moment of somebody who has not stayed after all."""
    sheets = _not_stayed(since).filter(stay=stay).order_by("-number")
    return sheets.values_list("uid", flat=True).first()


def _not_stayed(since: datetime) -> QuerySet[Paper]:
    """They stayed where something at the bedside, a planned leaving, or anything of the stay but leaving came later."""
    signed = OuterRef("signed_at")
    stayed = (
        Q(Exists(Event.objects.filter(stay=OuterRef("stay"), opened_at__gt=signed)))
        | Q(Exists(PlannedHome.objects.filter(stay=OuterRef("stay"), recorded_at__gt=signed)))
        | Q(Exists(StayEvent.objects.filter(stay=OuterRef("stay"), happened_at__gt=signed).exclude(kind="left")))
    )
    return Paper.objects.filter(kind=AGAINST_PLAN, signed_at__gte=since).exclude(stayed)
