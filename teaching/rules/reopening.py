"""What makes old evidence stale: each asks the rows it touches for one showing after it (I7, I8).

A kit that works another way, a tube that came out, an illness, an operation, a finding the learner missed.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.checklist import REOPENERS, concerns, kits_worn, lasts
from teaching.rules.facts import BodyEvent, Chart, Finding, Item, Kit, Learner, Stoma
from teaching.rules.reasons import Reason
from teaching.rules.vocabulary import BODY_EVENTS, DECISION_CODES, LEVEL_CODES

ATTEMPTED = frozenset(LEVEL_CODES + DECISION_CODES)
EVERY_STEP = "every step"
LOOKING = "looking"

PASSING = ("delirium", "intensive-care", "sedation")  # of the person; nothing of theirs is relied on meanwhile
LASTING = ("sight-loss", "hand-loss")  # of the person; may be for good, so what is shown after it began counts
SURGERY = ("reoperation", "re-sited")  # of the stoma, so of everyone who looks after it
TUBES = ("rod", "stents")


@dataclass(frozen=True, slots=True)
class Ask:
    """One showing is asked for after `at`, of the rows it touches. A showing in the same event does not answer it."""

    at: datetime
    touches: str
    reason: Reason
    event: str = ""

    def touches_row(self, item: Item) -> bool:
        if self.touches == LOOKING:
            return item.looking
        return self.touches == EVERY_STEP or self.touches in item.reopened_by


def asks(chart: Chart, stoma: Stoma, learner: Learner, now: datetime) -> tuple[Ask, ...]:
    """All that was asked of this learner on this stoma up to now, newest first."""
    found = [*_of_kits(chart, stoma, now), *_of_body(chart, stoma, learner, now),
             *_of_findings(chart, stoma, learner, now)]
    return tuple(sorted(found, key=lambda ask: (ask.at, ask.touches, ask.event), reverse=True))


def meanwhile(chart: Chart, stoma: Stoma, learner: Learner, now: datetime) -> tuple[BodyEvent, ...]:
    """The states during which nothing this learner holds on this stoma is relied on."""
    return tuple(
        event for event in sorted(chart.body_events, key=lambda one: (one.began, one.code))
        if concerns(event, stoma.key) and lasts(event, now)
        and ((event.code in PASSING and learner.kind == "person") or (event.code in SURGERY and event.ended))
    )


def from_nothing(chart: Chart, stoma: Stoma, now: datetime) -> datetime | None:
    """When the stoma was last re-sited: the rows that name it begin again there."""
    moved = [event.ended or event.began for event in chart.body_events
             if event.code == "re-sited" and concerns(event, stoma.key) and event.began <= now]
    return max(moved, default=None)


def _of_kits(chart: Chart, stoma: Stoma, now: datetime) -> Iterator[Ask]:
    """Each kit beside the one before it; an outlet beside the last outlet worn, across closed pouches."""
    before: Kit | None = None
    outlet = ""
    urine = stoma.kind in ("urostomy", "wet-colostomy")
    for kit in kits_worn(chart, stoma.key, now):
        words = []
        if urine or kit.closure == "drainable":
            if outlet and kit.outlet != outlet:
                words.append("tap" if urine else "outlet")
            outlet = kit.outlet
        if before:
            if (before.pieces, kit.pieces) == ("one", "two"):
                words.append("one-to-two")
            if "convex" == kit.shape != before.shape or "belt" in kit.items - before.items:
                words.append("convex-or-belt")
            if before.opening == "cut" != kit.opening:
                words.append("opening")
        at = chart.ward.local(kit.since)
        yield from (Ask(kit.since, word, Reason("after-kit", at=at, what=REOPENERS[word])) for word in words)
        before = kit


def _of_body(chart: Chart, stoma: Stoma, learner: Learner, now: datetime) -> Iterator[Ask]:
    for event in chart.body_events:
        if not concerns(event, stoma.key):
            continue
        ended = event.ended if event.ended and event.ended <= now else None
        at: datetime | None = None
        if event.code in SURGERY:
            at = event.ended or event.began
        elif learner.kind == "person":
            at = ended if event.code in PASSING else event.began if event.code in LASTING else None
        if at and event.began <= now:
            state = BODY_EVENTS[event.code]
            yield Ask(at, EVERY_STEP, Reason("after-state", state=state, at=chart.ward.local(at)))
        if event.code in TUBES and ended:
            yield Ask(ended, "tubes-out", Reason("after-tubes", at=chart.ward.local(ended)))


def _of_findings(chart: Chart, stoma: Stoma, learner: Learner, now: datetime) -> Iterator[Ask]:
    """Missed: seen by the nurse in a session in which this learner took part."""
    missed = [finding for finding in chart.findings if finding.stoma == stoma.key and finding.at <= now
              and finding.noticed_by == "nurse" and amiss(finding)]
    if not missed:
        return
    took_part = {rating.event for rating in chart.ratings
                 if rating.learner == learner.key and rating.stoma == stoma.key
                 and rating.answer in ATTEMPTED and not rating.reported}
    for finding in missed:
        if finding.event in took_part:
            reason = Reason("after-missed", at=chart.ward.local(finding.at))
            yield Ask(finding.at, LOOKING, reason, finding.event)


def amiss(finding: Finding) -> bool:
    """Anything seen that a person looking after the stoma should have seen too."""
    return (
        finding.colour not in ("", "pink-red") or finding.wet == "dry" or finding.edge == "gap"
        or finding.stands in ("sunk", "longer") or finding.bleeding in ("inside", "not-stopping")
        or any(seen != "good" for _, seen in finding.skin)
    )
