"""When the next pouch change is due (R1, first half): the last change of any kind plus the person's interval."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from teaching.rules.checklist import kit_at
from teaching.rules.facts import Chart, Stoma
from teaching.rules.reasons import Reason
from teaching.rules.reopening import ATTEMPTED


@dataclass(frozen=True, slots=True)
class NextChange:
    """For one stoma: the last change, when the next is due (UTC), and why that is not known. None: not known."""

    stoma: str
    last: datetime | None
    due: datetime | None
    unknown: Reason | None = None


def next_change(chart: Chart, stoma: Stoma, now: datetime) -> NextChange:
    """No change, no kit or no interval recorded: when it is due is not known, and the reason says which."""
    kit = kit_at(chart, stoma.key, now)
    if kit is None:
        return NextChange(stoma.key, None, None, Reason("no-kit", stoma=named(chart, stoma)))
    last = last_change(chart, stoma.key, now)
    if last is None:
        return NextChange(stoma.key, None, None, Reason("no-change", stoma=named(chart, stoma)))
    if kit.interval_hours is None:
        return NextChange(stoma.key, last, None, Reason("no-interval", stoma=named(chart, stoma)))
    return NextChange(stoma.key, last, last + timedelta(hours=kit.interval_hours))


def last_change(chart: Chart, stoma: str, now: datetime) -> datetime | None:
    return max((at for at, _ in changes_made(chart, stoma, now)), default=None)


def changes_made(chart: Chart, stoma: str, now: datetime) -> Iterator[tuple[datetime, str]]:
    """When and in which event, by whoever did it, taught, given or reported (I17); as often as it was written down.

    Practice changes nothing that is worn, nor does a session that was broken off while things were set out.
    """
    worn = {item.code for item in chart.checklist.items if item.procedure == "change" and item.phase != "prepare"}
    for rating in chart.ratings:
        if (
            rating.stoma == stoma and rating.at <= now and not rating.practice
            and rating.answer in ATTEMPTED and rating.code in worn
        ):
            yield rating.at, rating.event
    for care in chart.care:
        if care.stoma == stoma and care.procedure == "change" and care.at <= now:
            yield care.at, care.event


def named(chart: Chart, stoma: Stoma) -> str:
    """Its label only where there are two to tell apart."""
    return f"{stoma.label} stoma" if len(chart.stomas) > 1 else "stoma"
