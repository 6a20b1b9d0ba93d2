"""Sessions of one person begun and not signed, as one nurse sees them; those put away; and what was tapped in one."""

from datetime import datetime
from typing import Any

from django.db.models import Exists, Max, OuterRef, Q, QuerySet, Subquery

from teaching.models import Account, Clinician, ClinicianDetails, Draft, DraftTap, Stay, TakeOver
from teaching.record.drafts import PUT_AWAY

OWNER = ClinicianDetails.objects.filter(clinician=OuterRef("owner")).order_by("-number").values("name")[:1]
TAPPER = ClinicianDetails.objects.filter(clinician=OuterRef("user__clinician")).order_by("-number").values("name")[:1]


def drafts_of(stay: Stay, seen_by: int | None) -> QuerySet[Draft]:
    """Open ones, closed ones of which this clinician (by id) has a part still to sign, and those put away; in one
    query.

    Each with `owner_name`, `last_tap_at`, `left`: whether `seen_by` had it before somebody took it over and has not
    put that part away, and `put_away`: whether it is put away.
    """
    left = TakeOver.objects.filter(draft=OuterRef("pk"), left_by=seen_by).exclude(draft__owner=seen_by)
    told = Account.objects.filter(event__uid=OuterRef("event_uid"), rater=seen_by).exclude(kind="addendum")
    own = DraftTap.objects.filter(draft=OuterRef("pk"), user__clinician=seen_by)
    away = DraftTap.objects.filter(draft=OuterRef("pk"), field=PUT_AWAY)
    still_left = Exists(left) & Exists(own) & ~Exists(told) & ~Exists(away.filter(user__clinician=seen_by))
    found = Draft.objects.filter(stay=stay).annotate(
        owner_name=Subquery(OWNER), last_tap_at=Max("taps__at"), left=still_left,
        put_away=Exists(away.filter(user__clinician=OuterRef("owner"), draft__state="dropped")),
    )  # fmt: skip
    return found.filter(Q(state="open") | Q(left=True) | Q(put_away=True)).order_by("begun_at")


def open_drafts(stay: Stay, seen_by: int | None) -> list[Any]:
    """Only those begun and not signed, the oldest first, each with its `owner_name`."""
    return [draft for draft in drafts_of(stay, seen_by) if draft.state == "open"]


def put_away_by(draft: Draft) -> list[tuple[str, datetime, str]]:
    """(nurse's name, when, why) of each who put it away, or a part of it."""
    away = draft.taps.filter(field=PUT_AWAY).annotate(name=Subquery(TAPPER)).order_by("at", "pk")
    return [(tap.name, tap.at, tap.value) for tap in away]


def tapped_in(draft: Draft) -> list[tuple[str, str, object]]:
    """(nurse's name, field, newest value) of everything tapped in it, whoever tapped it."""
    return _newest(draft.taps.all())


def tapped_by_others(draft: Draft, than: Clinician) -> list[tuple[str, str, object]]:
    """(nurse's name, field, newest value) of what others tapped before it changed hands: shown, never signed here."""
    return _newest(draft.taps.exclude(user__clinician=than))


def _newest(taps: QuerySet[DraftTap]) -> list[tuple[str, str, object]]:
    told = taps.exclude(field=PUT_AWAY).annotate(name=Subquery(TAPPER)).order_by("at", "pk")
    newest = {(tap.name, tap.field): tap.value for tap in told}
    return [(name, field, value) for (name, field), value in newest.items()]
