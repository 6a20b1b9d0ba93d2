"""A unit's learning in words, for the screen and the paper alike: counts first, the rest only past its floor."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from teaching.analysis.intervals import Share
from teaching.analysis.small_groups import FEWEST
from teaching.analysis.unit_learning import INDEPENDENT, RowLearning, UnitLearning

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
class Step:
    """One step: how many tried it, how many were unaided at once, and in which session half of them were.

    `share` with its range only past the floor and where no group is small.
    """

    title: str
    tried: int
    share: Share | None
    said: str
    usual: str


@dataclass(frozen=True)
class LearningSaid:
    """`usual_days`, `curves`, `days` and `months` are empty below the floor; `floor` says so then, "" past it.

    `days`: (day, share independent, share that left first); `months`: (month, share), `median` of the shares.
    """

    counts: str
    stood: str
    sessions: str
    floor: str
    leaving: tuple[Leaving, ...]
    steps: tuple[Step, ...]
    usual_days: str
    curves: tuple[tuple[str, Points], ...]
    days: tuple[tuple[int, str, str], ...]
    months: tuple[tuple[str, float], ...]
    median: float
    signals: tuple[str, ...]
    fewest: int = FEWEST

    @property
    def month_table(self) -> tuple[tuple[str, str], ...]:
        return tuple((month, f"{value:.0%}") for month, value in self.months)


def learning_said(
    found: UnitLearning, until: str, titles: Mapping[str, str], results: Sequence[str]
) -> LearningSaid:
    """What `found` may show, as it stood on the day `until`; "": too few have left yet.

    `titles` of the rows by code, `results` in the order in which they are told.
    """
    past = found.past_floor
    return LearningSaid(
        counts=f"{found.stays} stays" if until else "No figures yet",
        stood=_stood(until),
        sessions=_sessions(found),
        floor="" if past else f"Curves, shares with their range and the months are shown from {found.floor} stays on.",
        leaving=tuple(_leaving(each, found) for each in results if each in found.results),
        steps=tuple(_step(row, titles, past) for row in found.rows),
        usual_days=_usual_days(found) if past else "",
        curves=_curves(found),
        days=_days(found),
        months=found.months,
        median=found.chart.median or 0.0,
        signals=tuple(_signals(found)),
    )


def _stood(until: str) -> str:
    if not until:
        return f"Figures are shown once {FEWEST} people have left."
    return (
        f"As it stood on {until}. The figures move on when {FEWEST} more have left, so that comparing two days "
        "does not point to one person."
    )


def _sessions(found: UnitLearning) -> str:
    if found.sessions is None:
        return f"Sessions a stay are said from {FEWEST} stays on."
    low, middle, high = found.sessions
    return f"Sessions a stay: half had {middle:g} or fewer, a quarter {low:g} or fewer, a quarter {high:g} or more."


def _leaving(result: str, found: UnitLearning) -> Leaving:
    count, share = found.results[result], found.shares.get(result)
    shown = f"hidden (under {FEWEST}, or beside such a group)" if count is None else str(count)
    return Leaving(result.capitalize(), shown, share, said(share))


def _step(row: RowLearning, titles: Mapping[str, str], past: bool) -> Step:
    usual = f"session {row.usual_try:g}" if row.usual_try else "not by half of them"
    told = said(row.at_once) if past and row.at_once else row.counted
    return Step(titles.get(row.code, row.code), row.tried, row.at_once if past else None, told, usual)


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
    by_day = {}
    for step in found.curve:
        independent, left = (f"{step.reached.get(name, 0.0):.0%}" for name in CURVES)
        by_day[int(step.time)] = (int(step.time), independent, left)
    return tuple(by_day.values())


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
