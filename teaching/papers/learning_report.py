"""What a unit's people stumble on, on paper: counts first, the rest only past its floor; nobody is named.

The sentences are those of the screen; `tests/papers/test_learning_report.py` holds them together. Below the floor
no share of the paper has a range, and of agreement only the number of paired sessions is said.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from teaching.analysis.intervals import Share
from teaching.analysis.reading_apart import Reading
from teaching.analysis.reading_said import Line, Row, count_said, floor_said, lines, rows, talk_about
from teaching.analysis.small_groups import FEWEST
from teaching.analysis.unit_learning import INDEPENDENT, RowLearning, UnitLearning
from teaching.rules.readiness import RESULTS

CURVES = {INDEPENDENT: "independent", "left": "left first"}
Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Leaving:
    """One result at leaving: how many, or that it is hidden; the share only past the floor."""

    words: str
    count: str
    share: Share | None
    said: str


@dataclass(frozen=True, slots=True)
class StepLine:
    """One step; `share` with its range only past the floor, below it the counts alone."""

    title: str
    tried: int
    share: Share | None
    said: str
    usual: str


@dataclass(frozen=True, slots=True)
class AgreementPart:
    """What two nurses read differently; `lines`, `rows` and `questions` are empty while `floor` says why."""

    count: str
    floor: str
    lines: tuple[Line, ...]
    rows: tuple[Row, ...]
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LearningReport:
    """`curves`, `days`, `months` are empty below the floor; `floor` is the sentence that says so, "" past it."""

    unit: str
    counts: str
    sessions: str
    floor: str
    leaving: tuple[Leaving, ...]
    steps: tuple[StepLine, ...]
    usual_days: str
    curves: tuple[tuple[str, Points], ...]
    days: tuple[tuple[int, str, str], ...]
    months: tuple[tuple[str, float], ...]
    median: float
    signals: tuple[str, ...]
    agreement: AgreementPart
    printed_at: str
    printed_by: str
    policy: str

    fewest: int = FEWEST

    @property
    def foot(self) -> str:
        return (
            f"Learning report, {self.unit}. Printed {self.printed_at} by {self.printed_by}. Policy version "
            f"{self.policy}. Counts of stays: no person, no nurse is named."
        )

    @property
    def month_table(self) -> tuple[tuple[str, str], ...]:
        return tuple((month, f"{value:.0%}") for month, value in self.months)


def learning_report(
    *,
    found: UnitLearning,
    reading: Reading,
    titles: Mapping[str, str],
    unit: str,
    printed_at: str,
    printed_by: str,
    policy: str,
) -> LearningReport:
    """The report of what `found` may show; `titles` are those of the unit's checklist, by code."""
    past = found.past_floor
    return LearningReport(
        unit=unit,
        counts="1 stay" if found.stays == 1 else f"{found.stays} stays",
        sessions=_sessions(found),
        floor="" if past else f"Curves, shares with their range and the months are shown from {found.floor} stays on.",
        leaving=tuple(_leaving(each, found) for each in RESULTS if each in found.results),
        steps=tuple(_step(row, titles, past) for row in found.rows),
        usual_days=_usual_days(found) if past else "",
        curves=_curves(found),
        days=_days(found),
        months=found.months,
        median=found.chart.median if found.months else 0.0,
        signals=tuple(_signals(found)),
        agreement=_agreement(reading, titles),
        printed_at=printed_at,
        printed_by=printed_by,
        policy=policy,
    )


def _agreement(reading: Reading, titles: Mapping[str, str]) -> AgreementPart:
    told = rows(reading, titles)
    return AgreementPart(count_said(reading), floor_said(reading), lines(reading), told, talk_about(told))


def _sessions(found: UnitLearning) -> str:
    if found.sessions is None:
        return f"Sessions a stay are said from {FEWEST} stays on."
    low, middle, high = found.sessions
    return f"Sessions a stay: half had {middle:g} or fewer, a quarter {low:g} or fewer, a quarter {high:g} or more."


def _leaving(result: str, found: UnitLearning) -> Leaving:
    count, share = found.results[result], found.shares.get(result)
    shown = f"hidden (under {FEWEST}, or beside such a group)" if count is None else str(count)
    return Leaving(result.capitalize(), shown, share, said(share))


def _step(row: RowLearning, titles: Mapping[str, str], past: bool) -> StepLine:
    usual = f"session {row.usual_try:g}" if row.usual_try else "not by half of them"
    told = said(row.at_once) if past and row.at_once else row.counted
    return StepLine(titles.get(row.code, row.code), row.tried, row.at_once if past else None, told, usual)


def _usual_days(found: UnitLearning) -> str:
    if found.usual_days is None:
        return "Independence was not reached by half."
    return f"Half were independent by day {found.usual_days:.0f} after the operation."


def _curves(found: UnitLearning) -> tuple[tuple[str, Points], ...]:
    return tuple(
        (words, tuple((step.time, step.reached.get(name, 0.0)) for step in found.curve))
        for name, words in CURVES.items()
        if any(name in step.reached for step in found.curve)
    )


def _days(found: UnitLearning) -> tuple[tuple[int, str, str], ...]:
    """By whole days: the share independent, and the share that left first."""
    by_day = {
        int(step.time): (int(step.time), *(f"{step.reached.get(name, 0.0):.0%}" for name in CURVES))
        for step in found.curve
    }
    return tuple(by_day.values())  # type: ignore[arg-type]


def _signals(found: UnitLearning) -> list[str]:
    """What the usual rules of a run chart say; none of them says why."""
    months = [month for month, _ in found.months]
    told = [
        f"From {months[first]} to {months[last]} every month lay on one side of the median: something changed."
        for first, last in found.chart.shifts
    ]
    told += [
        f"From {months[first]} to {months[last]} every month moved the same way: something is changing."
        for first, last in found.chart.trends
    ]
    return told or ["No run of months stands out."]


def said(share: Share | None) -> str:
    """Such as "12 of 40, 30% (18% to 45%)"."""
    if share is None or share.value is None or share.low is None or share.high is None:
        return ""
    return f"{share.count} of {share.total}, {share.value:.0%} ({share.low:.0%} to {share.high:.0%})"
