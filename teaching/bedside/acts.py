"""What may be recorded from a person's page: the two usual things in sight, the rest behind one word.

While somebody is to be called, saying whom you told comes before all of it.
"""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.bedside.caution_page import PERMISSIONS, STEPS, step_address
from teaching.bedside.recorders import CHANGES, EMPTYINGS, MEETINGS, NIGHTS, recorder_of
from teaching.bedside.which import choices
from teaching.rules.cautions import call_first
from teaching.rules.facts import Chart

Link = tuple[str, str]
IN_SIGHT = 2


@dataclass(frozen=True, slots=True)
class Acts:
    """(address, words) each. `first` are buttons; `others` unfold."""

    first: tuple[Link, ...]
    others: tuple[Link, ...]


def acts_of(stay, chart: Chart, now: datetime, asker) -> Acts:
    """What the person looking may not do, and what this person's stomas do not have, is not shown."""
    usual = ((EMPTYINGS, _emptying(chart, now)), (CHANGES, "Record a change"))
    seldom = ((NIGHTS, "Night drainage"), (MEETINGS, "Meeting the stoma"))
    care = (reverse("care", args=[stay.uid]), "Care given, or a leak")
    found = [
        *_told(chart, now, asker),
        *_offered(usual, stay, chart, now, asker),
        *([care] if asker("log_care") and chart.stomas else []),
        *_offered(seldom, stay, chart, now, asker),
        *_said(stay, chart, asker),
    ]
    return Acts(tuple(found[:IN_SIGHT]), tuple(found[IN_SIGHT:]))


def _told(chart: Chart, now: datetime, asker) -> list[Link]:
    may = asker(PERMISSIONS["told"])
    return [(step_address("told", one.key), STEPS["told"][0]) for one in call_first(chart, now)[:1] if may]


def _offered(recorders, stay, chart: Chart, now: datetime, asker) -> list[Link]:
    return [
        (reverse(recorder.name, args=[stay.uid]), words)
        for recorder, words in recorders
        if asker(recorder.permission) and choices(chart, now, recorder.offered)
    ]


def _said(stay, chart: Chart, asker) -> list[Link]:
    """Topics talked about, and what is still managed."""
    found = []
    if chart.stomas and asker("record_change"):
        found.append((reverse("topics", args=[stay.uid]), "Topics: told, or in own words"))
    if chart.stomas and asker("record_recheck"):
        found.append((reverse("recheck", args=[stay.uid]), "Still manages all of it alone"))
    return found


def _emptying(chart: Chart, now: datetime) -> str:
    swaps = {which.procedure for which in choices(chart, now)} == {"swap"}
    return "Record a swap" if swaps else "Record an emptying"


def address_of(draft, stay) -> str:
    """Where a session that was begun is gone on with."""
    return f"{reverse(recorder_of(draft.procedure).name, args=[stay.uid])}?draft={draft.uid}"
