"""What a unit's people stumble on, how they leave, how long it takes: counts first, the rest only past its floor."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from teaching.analysis.intervals import Share
from teaching.analysis.small_groups import FEWEST
from teaching.analysis.unit_learning import INDEPENDENT, LearnedStay, RowLearning, UnitLearning, unit_learning
from teaching.rules.items import Checklist
from teaching.rules.readiness import RESULTS
from teaching.rules.ward import Ward

LEFT_FIRST = "left"
CURVES = {INDEPENDENT: "independent", LEFT_FIRST: "left first"}


def learned_stays(shares: Sequence[dict[str, Any]]) -> list[LearnedStay]:
    """Kept shares as the analysis takes them."""
    return [
        LearnedStay(**share | {"tries": {code: (count, came) for code, (count, came) in share["tries"].items()}})
        for share in shares
    ]


@dataclass(frozen=True, slots=True)
class Row:
    """One step: how many tried it, how many were unaided at once, and in which session half of them were."""

    title: str
    tried: int
    share: Share | None
    said: str
    usual: str


@dataclass(frozen=True, slots=True)
class Leaving:
    words: str
    count: str
    share: Share | None
    said: str


class LearningPage:
    def __init__(
        self, unit, ward: Ward, checklist: Checklist, shares: Sequence[dict[str, Any]], floor: int, now: datetime
    ):
        self.unit, self.ward, self.now, self.checklist = unit.name, ward, now, checklist
        self.found: UnitLearning = unit_learning(learned_stays(shares), floor)
        self.floor = floor

    @property
    def counts(self) -> str:
        return "1 stay" if self.found.stays == 1 else f"{self.found.stays} stays"

    @property
    def sessions(self) -> str:
        if self.found.sessions is None:
            return f"Sessions a stay are said from {FEWEST} stays on."
        low, middle, high = self.found.sessions
        return f"Sessions a stay: half had {middle:g} or fewer, a quarter {low:g} or fewer, a quarter {high:g} or more."

    @property
    def leaving(self) -> list[Leaving]:
        told = self.found.results
        return [self._leaving(result, told[result]) for result in RESULTS if result in told]

    def _leaving(self, result: str, count: int | None) -> Leaving:
        share = self.found.shares.get(result)
        shown = str(count) if count is not None else f"hidden (under {FEWEST}, or beside such a group)"
        return Leaving(result.capitalize(), shown, share, said(share))

    @property
    def rows(self) -> list[Row]:
        return [
            Row(
                self._title(row.code), row.tried, row.at_once, self._at_once(row),
                f"session {row.usual_try:g}" if row.usual_try else "not by half of them",
            )
            for row in self.found.rows
        ]  # fmt: skip

    def _at_once(self, row: RowLearning) -> str:
        """With its range only past the floor."""
        return said(row.at_once) if self.found.past_floor and row.at_once else row.counted

    def _title(self, code: str) -> str:
        return self.checklist.titles.get(code, code)

    @property
    def curves(self) -> list[tuple[str, list[tuple[float, float]]]]:
        return [
            (words, [(step.time, step.reached.get(name, 0.0)) for step in self.found.curve])
            for name, words in CURVES.items()
            if any(name in step.reached for step in self.found.curve)
        ]

    @property
    def curve_table(self) -> list[tuple[int, str, str]]:
        """By whole days: the share independent, and the share that left first."""
        by_day: dict[int, tuple[int, str, str]] = {}
        for step in self.found.curve:
            independent, left = (f"{step.reached.get(name, 0.0):.0%}" for name in CURVES)
            by_day[int(step.time)] = (int(step.time), independent, left)
        return list(by_day.values())

    @property
    def usual_days(self) -> str:
        if self.found.usual_days is None:
            return "Independence was not reached by half."
        return f"Half were independent by day {self.found.usual_days:.0f} after the operation."

    @property
    def month_table(self) -> list[tuple[str, str]]:
        return [(month, f"{value:.0%}") for month, value in self.found.months]

    @property
    def signals(self) -> list[str]:
        """What the usual rules of a run chart say; none of them says why."""
        months = [month for month, _ in self.found.months]
        told = [
            f"From {months[first]} to {months[last]} every month lay on one side of the median: something changed."
            for first, last in self.found.chart.shifts
        ]
        told += [
            f"From {months[first]} to {months[last]} every month moved the same way: something is changing."
            for first, last in self.found.chart.trends
        ]
        return told or ["No run of months stands out."]


def said(share: Share | None) -> str:
    """Such as "12 of 40, 30 % (18 to 45 %)"."""
    if share is None or share.value is None or share.low is None or share.high is None:
        return ""
    return f"{share.count} of {share.total}, {share.value:.0%} ({share.low:.0%} to {share.high:.0%})"
