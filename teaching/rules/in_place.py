"""R7, R8: whether what must be in place is, for a leaving at a known moment or one not yet planned."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.arrangements import (
    BLOCKING,
    CATALOGUE,
    FACILITY,
    FIRST_CONTACT,
    PHONE,
    SIZE,
    SUPPLIES,
    TO_DO,
    Detail,
    Kind,
)
from teaching.rules.checklist import kit_at, lasts
from teaching.rules.cover import DAY, HOUR
from teaching.rules.due import named
from teaching.rules.facts import Arrangement, Chart, Visit
from teaching.rules.lines import Policy
from teaching.rules.reasons import Reason
from teaching.rules.vocabulary import can_be_rung

MADE = "made"
DUE_AT_NEEDED = ("supplies", "first-contact", "rod-out", "stents-out")


@dataclass(frozen=True, slots=True)
class Lacking:
    """One arrangement that is wanted and not in place: what is wanting, in a sentence."""

    kind: Kind
    reason: Reason


def newest(chart: Chart, code: str, now: datetime) -> Arrangement | None:
    """The newest word on an arrangement. At the same moment anything wins over "made"."""
    said = [one for one in chart.arrangements if one.code == code and one.at <= now]
    return max(said, key=lambda one: (one.at, one.state != MADE), default=None)


def wanted(chart: Chart, policy: Policy, now: datetime) -> Iterator[Kind]:
    """The entries of the catalogue that this stay must have or should have, in order."""
    states = {event.code for event in chart.body_events if lasts(event, now)}
    if high_output(chart, policy, now):
        states.add("high-output")
    to_facility = chart.goes_to == FACILITY
    for kind in CATALOGUE:
        if (kind.facility if to_facility else kind.home) and (kind.wanted == "always" or kind.wanted in states):
            yield kind


def high_output(chart: Chart, policy: Policy, now: datetime) -> bool:
    """Any 24-hour total of this stay at or past the bound, of a bowel stoma."""
    return any(
        total.ml >= policy.output_today and total.until <= now and chart.stoma(total.stoma).kind != "urostomy"
        for total in chart.totals
    )


def lacking(chart: Chart, policy: Policy, leaving: datetime | None, now: datetime) -> tuple[Lacking, ...]:
    """The blocking ones that are not in place. One not recorded is a proved gap, and so is a needed part of one."""
    found = []
    for kind in wanted(chart, policy, now):
        if kind.weight == BLOCKING:
            reason = _wanting(chart, policy, kind, leaving, now)
            if reason:
                found.append(Lacking(kind, reason))
    return tuple(found)


def to_do(chart: Chart, policy: Policy, now: datetime) -> tuple[Lacking, ...]:
    """What else is wanted and not in place: a list beside the result, which it never changes."""
    found = []
    for kind in wanted(chart, policy, now):
        if kind.weight == TO_DO:
            reason = _not_made(kind, newest(chart, kind.code, now))
            if reason:
                found.append(Lacking(kind, reason))
    return tuple(found)


def _wanting(chart: Chart, policy: Policy, kind: Kind, leaving: datetime | None, now: datetime) -> Reason | None:
    if kind.code == FIRST_CONTACT and any(_in_time(policy, visit.at, leaving) for visit in accepted(chart, leaving)):
        return None  # a nurse who comes in time is a first contact
    if kind.code == SIZE:
        unsized = [stoma for stoma in chart.stomas if not _sized(chart, stoma.key, now)]
        return Reason("no-size", stoma=named(chart, unsized[0])) if unsized else None
    said = newest(chart, kind.code, now)
    reason = _not_made(kind, said)
    if reason or said is None:
        return reason
    missing = [detail.words for detail in kind.details if detail.needed and _unsaid(detail, said)]
    if kind.code in DUE_AT_NEEDED and said.due_at is None:
        missing.append(kind.moment)
    if missing:
        return Reason("say-also", what=kind.words, names="; ".join(missing))
    assert said.due_at is not None or kind.code not in DUE_AT_NEEDED
    if kind.code == FIRST_CONTACT and said.due_at and not _in_time(policy, said.due_at, leaving):
        hours = policy.first_contact // HOUR
        return Reason("contact-not-in-time", at=chart.ward.local(said.due_at), hours=hours)
    without = days_without_kit(chart, said, leaving) if kind.code == SUPPLIES else 0
    if without and said.due_at:
        return Reason("days-without-kit", days=without, at=chart.ward.local(said.due_at))
    return None


def _not_made(kind: Kind, said: Arrangement | None) -> Reason | None:
    if said is None or said.state == "cancelled":
        return Reason("not-arranged", what=kind.words)
    if said.state == "refused":
        return Reason("refused", what=kind.words)
    return None if said.state == MADE else Reason("only-asked", what=kind.words)


def _unsaid(detail: Detail, arranged: Arrangement) -> bool:
    """Nothing said, an empty text, a number nobody can ring, or a no where a yes is needed. Nought is a number."""
    said = arranged.detail(detail.name)
    if detail.kind == PHONE:
        return not can_be_rung(said)
    return said is None or said is False or (isinstance(said, str) and not said.strip())


def _sized(chart: Chart, stoma: str, now: datetime) -> bool:
    """Measured at some change here, or worn pre-cut to a size."""
    kit = kit_at(chart, stoma, now)
    return bool(kit and kit.pre_cut_mm) or any(
        finding.width_mm for finding in chart.findings if finding.stoma == stoma and finding.at <= now
    )


def _in_time(policy: Policy, at: datetime, leaving: datetime | None) -> bool:
    return leaving is None or leaving <= at <= leaving + policy.first_contact


def days_without_kit(chart: Chart, supplies: Arrangement, leaving: datetime | None) -> int:
    """Days between the last that the kit lasts for and the first delivery; 0 where it lasts or is not known.

    Kit for 14 days taken along on the 1st lasts until the 15th: a delivery on that day comes in time.
    """
    days = supplies.detail("days")
    if leaving is None or supplies.due_at is None or not isinstance(days, int):
        return 0
    until_delivery = chart.ward.date(supplies.due_at) - chart.ward.date(leaving)
    return max(0, until_delivery // DAY - days)


def accepted(chart: Chart, leaving: datetime | None, stoma: str = "") -> list[Visit]:
    """Visits that a nurse has accepted, from leaving on; with `stoma` those that look after it."""
    return [
        visit for visit in chart.visits
        if visit.state == MADE and visit.accepted_by.strip() and (leaving is None or visit.at >= leaving)
        and (not stoma or visit.stoma in ("", stoma))
    ]
