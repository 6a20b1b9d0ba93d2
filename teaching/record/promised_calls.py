"""Calls promised on a kept sheet of leaving against the plan: until when, by whom. One query, however many they are.

They stayed after all where a leaving was planned anew, anything of the stay but leaving was noted, or something at the
bedside came on a later day of the ward. A pouch changed at the door is no staying. Whatever came between, a leaving
noted on the day of the sheet, or before the call fell due, keeps the promise.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery

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
    kept = _not_stayed(Paper.objects.filter(stay__now__unit=unit), since)
    found = {}
    for sheet in kept:
        due = _due(sheet)
        if sheet.signed_at and due:
            found[sheet.stay_id] = Promise(sheet.signed_at, due, sheet.content.get("call_by") or "")
    return found


def going_against_plan(stay: Stay, since: datetime) -> UUID | None:
    """The newest sheet signed since a moment of somebody who has not stayed after all."""
    sheets = list(_not_stayed(Paper.objects.filter(stay=stay), since))
    return sheets[-1].uid if sheets else None


def _not_stayed(papers: QuerySet[Paper], since: datetime) -> Iterator[Paper]:
    """The sheets signed since a moment, oldest first, each judged by what came after it."""
    after, signed = {"stay": OuterRef("stay")}, OuterRef("signed_at")
    noted = StayEvent.objects.filter(Q(happened_at__gt=signed) | Q(kind="left", happened_at=signed), **after)
    cared = Event.objects.filter(opened_at__gt=signed, **after).order_by("-opened_at")
    sheets = papers.filter(kind=AGAINST_PLAN, signed_at__gte=since).select_related("stay").order_by("number").annotate(
        noted=Subquery(noted.order_by("-number").values("kind")[:1]),
        noted_at=Subquery(noted.order_by("-number").values("happened_at")[:1]),
        else_noted=Exists(noted.exclude(kind="left")),
        planned=Exists(PlannedHome.objects.filter(recorded_at__gt=signed, **after)),
        cared_at=Subquery(cared.values("opened_at")[:1]),
    )  # fmt: skip
    return (sheet for sheet in sheets if not _stayed(sheet))


def _stayed(sheet: Any) -> bool:
    """`sheet` with what came after it, as annotated above."""
    due = _due(sheet)
    if sheet.noted == "left" and (_same_day(sheet, sheet.noted_at) or (due and sheet.noted_at <= due)):
        return False
    return bool(sheet.else_noted or sheet.planned or (sheet.cared_at and not _same_day(sheet, sheet.cared_at)))


def _same_day(sheet: Paper, moment: datetime) -> bool:
    zone = ZoneInfo(sheet.stay.zone)
    return sheet.signed_at is not None and sheet.signed_at.astimezone(zone).date() == moment.astimezone(zone).date()


def _due(sheet: Paper) -> datetime | None:
    """None on a sheet kept before it told the moment."""
    due = sheet.content.get("call_due")
    return datetime.fromisoformat(due) if due else None
