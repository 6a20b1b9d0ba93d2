"""The earliest moment at which each result can be reached, over foreseen opportunities. A bound, never a prediction.

What is learned is judged as readiness judges it (`ways.py`); arrangements and cautions are not foreseen here. A change
that is foreseen before leaving moves when the first one after leaving is due.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.caps import short_wear
from teaching.rules.chances import Opportunity
from teaching.rules.due import NextChange
from teaching.rules.facts import Chart
from teaching.rules.hands import Situation, situation_of
from teaching.rules.lines import Policy
from teaching.rules.prospect import Prospect, Timeline, timeline
from teaching.rules.readiness import LEANS, WITH_NURSING
from teaching.rules.ways import Ways

REACHED = tuple(result for result, _ in LEANS)


@dataclass(frozen=True, slots=True)
class Reach:
    """`earliest` moment (UTC) of each result up to the planned one, None: not by then; `at_planned`: holds then too.

    `beyond`: the earliest moment after the planned one of those that are not reached by then, were leaving put off.
    """

    earliest: tuple[tuple[str, datetime | None], ...]
    at_planned: tuple[tuple[str, bool], ...]
    beyond: tuple[tuple[str, datetime], ...] = ()

    def first(self, result: str) -> datetime | None:
        return dict(self.earliest)[result]

    def then(self, result: str) -> bool:
        return dict(self.at_planned)[result]

    @property
    def best(self) -> str:
        """The best result that can hold at the planned moment; "" where none can."""
        return next((result for result, holds in self.at_planned if holds), "")


class Reaching:
    """One stay's rows over one list of opportunities; `planned` the moment that is asked about besides."""

    def __init__(
        self, chart: Chart, assessment: Assessment, policy: Policy, now: datetime, planned: datetime,
        chances: tuple[Opportunity, ...],
    ) -> None:  # fmt: skip
        self.chart, self.assessment, self.policy, self.now, self.planned = chart, assessment, policy, now, planned
        self.chances = chances
        foreseen = tuple(_moved_on(change, chances, planned) for change in assessment.changes)
        self.situation: Situation = situation_of(chart, replace(assessment, changes=foreseen), policy, now)
        self.line: Timeline = timeline(chances, now, planned)
        self.ways: Mapping[str, Ways] = {stoma.key: self._ways(stoma.key) for stoma in chart.stomas}

    def _ways(self, stoma: str) -> Ways:
        capped = short_wear(self.chart, stoma, self.policy, self.now)
        rows = {one.code: one.row for one in self.assessment.standings if one.stoma == stoma}
        prospect = Prospect(self.chart, self.policy, self.now, stoma, self.line, rows)
        return Ways(self.situation, prospect, capped[-1] if capped else None)

    def reach(self) -> Reach:
        held = self.held()
        there = self.line.bit(self.planned)
        firsts = {result: self.line.earliest(held[result]) for result in REACHED}
        by_then = {result: at if at is not None and at <= self.planned else None for result, at in firsts.items()}
        return Reach(
            tuple(by_then.items()),
            tuple((result, bool(held[result] & there)) for result in REACHED),
            tuple((result, at) for result, at in firsts.items() if at is not None and at > self.planned),
        )

    def held(self) -> dict[str, int]:
        """For each result the moments at which every stoma's part of it could be held, as bits."""
        found = {}
        for result, lean in LEANS:
            found[result] = self.line.always if self.ways else 0
            for ways in self.ways.values():
                found[result] &= ways.reachable(lean)
        if self.chart.goes_to == "facility":
            found[WITH_NURSING] = self.line.always  # its nurses take the place of all that is learned (R8)
        return found

    def without(self, coming: Opportunity, code: str) -> dict[str, int]:
        """As `held`, were this row not shown in this one opportunity."""
        place = next(place for place, one in enumerate(self.line.chances) if one is coming)
        prospect = self.ways[coming.stoma].prospect
        prospect.lost = (place, code)
        try:
            return self.held()
        finally:
            prospect.lost = None

    def topic(self, stoma: str, code: str, learner: str) -> int:
        """From when this learner can have explained a topic, as bits."""
        rows = self.situation.rows.get((stoma, learner), {})
        row = next((one for one in (*rows.get("know", ()), *rows.get("topics", ())) if one.code == code), None)
        return self.ways[stoma].talks[learner].explained(row.row) if row else 0


def _moved_on(change: NextChange, chances: tuple[Opportunity, ...], planned: datetime) -> NextChange:
    """The next change as it will stand at leaving, once every change foreseen before it was made."""
    if change.last is None or change.due is None:
        return change
    made = [
        one.at for one in chances
        if one.stoma == change.stoma and one.procedure == "change" and not one.practice and one.at <= planned
    ]
    if not made:
        return change
    return replace(change, last=max(made), due=max(made) + (change.due - change.last))
