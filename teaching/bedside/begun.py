"""Sessions begun and not signed: who has them, who is at it now, who still has a part to sign; and those put away."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.urls import reverse

from teaching.bedside.acts import address_of
from teaching.bedside.taps import in_words
from teaching.record.drafts_of import drafts_of, tapped_by_others
from teaching.rules.huddle import when
from teaching.rules.vocabulary import PROCEDURES
from teaching.rules.ward import Ward

AT_IT = timedelta(minutes=5)  # common practice, no source: whoever tapped so lately is still at the bed


@dataclass(frozen=True, slots=True)
class Begun:
    """`act` is what the link to the address says; `away` is where it is put away, by whoever may."""

    words: str
    address: str = ""
    act: str = "Go on with it"
    away: str = ""


def begun_here(stay, found: Iterable[Any], ward: Ward, now: datetime, asker) -> list[Begun]:
    """Shown to everybody on the person's page; another nurse's is first taken over. `found` by `drafts_of`."""
    return [begun for draft in found for begun in _said(draft, stay, ward, now, asker)]


def put_away_here(found: Iterable[Any], ward: Ward, now: datetime, asker) -> list[tuple[str, str]]:
    """(address, words) of those put away: each stays readable for whoever records here, the newest first."""
    if not asker("record_emptying"):
        return []
    gone = [draft for draft in found if draft.put_away]
    return [
        (
            reverse("put-away", args=[draft.uid]),
            f"{PROCEDURES[draft.procedure]}, begun {when(draft.begun_at, ward, now)} by {draft.owner_name}",
        )
        for draft in reversed(gone)
    ]


def _said(draft, stay, ward: Ward, now: datetime, asker):
    at, own = when(draft.begun_at, ward, now), draft.owner_id == asker.clinician_id
    away, what = reverse("put-away", args=[draft.uid]), PROCEDURES[draft.procedure]
    if draft.left:
        words = f"{what}. Begun {at}, gone on with by {draft.owner_name}."
        words += " What you tapped before that is not signed yet."
        yield Begun(words, address_of(draft, stay), "Sign your part", away)
    if draft.state != "open":
        return
    if own:
        words = f"{what}. Begun {at} by you, not signed. It does not count yet."
        yield Begun(words, address_of(draft, stay), away=away)
    else:
        other = reverse("take-over", args=[draft.uid]) if asker("record_emptying") else ""
        yield Begun(f"{what}. {_begun_by(draft, at, now)}, not signed. It does not count yet.", other, "Take it over")


def _begun_by(draft, at: str, now: datetime) -> str:
    """Such as "Begun today 02:10 by a nurse"; at it still where the last tap is a few minutes old."""
    if _at_it(draft, now):
        return f"{draft.owner_name} is recording now, begun {at}"
    return f"Begun {at} by {draft.owner_name}"


def _at_it(draft, now: datetime) -> bool:
    return bool(draft.last_tap_at) and now - draft.last_tap_at <= AT_IT


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """What a recorder's page says of others: who is recording this person now, and what was tapped before."""

    recording: tuple[str, ...]
    tapped: tuple[tuple[str, str], ...]


def elsewhere(stay, draft, form, now: datetime, asker) -> Elsewhere:
    recording = [
        f"{one.owner_name} is recording now for this person."
        for one in drafts_of(stay, asker.clinician_id)
        if one.state == "open" and one.owner_id != asker.clinician_id and _at_it(one, now)
    ]
    told = tapped_by_others(draft, draft.whose) if draft else []
    return Elsewhere(tuple(recording), tuple(tapped_words(form, told)))


def tapped_words(form, told: Iterable[tuple[str, str, object]]) -> list[tuple[str, str]]:
    """(nurse, sentence) of each tap that this recorder's form has a field for; what was taken back is left out."""
    return [
        (name, f"{form.fields[field].label}: {in_words(form.fields[field], value)}")
        for name, field, value in told
        if field in form.fields and field != "which" and value not in ("", [], False)
    ]
