"""What a unit's finished stays say together: which steps people stumble on, how they leave, how long it takes.

Counts come first; curves and intervals appear only past their floor. Nothing here knows who taught.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import median, quantiles
from typing import Any

from teaching.analysis.intervals import Share, share
from teaching.analysis.run_chart import RunChart, run_chart
from teaching.analysis.small_groups import FEWEST, no_few, shown
from teaching.analysis.time_to_independence import Step, aalen_johansen, first_time_at

INDEPENDENT = "independent"


@dataclass(frozen=True, slots=True)
class LearnedStay:
    """One stay. `days` from surgery until `outcome`: independent, left (first), or "" (still here, days so far).

    `result` is the readiness at leaving, "" where it was not judged; `month` of leaving as "2026-05".
    `tries` by row: how many sessions it was tried in until first unaided, and whether it ever was.
    """

    outcome: str
    days: float | None
    month: str
    result: str
    sessions: int
    tries: Mapping[str, tuple[int, bool]] = field(default_factory=dict)


def kept_stay(share: Mapping[str, Any]) -> LearnedStay:
    """A kept share as the analysis takes it."""
    return LearnedStay(**{**share, "tries": {code: (count, came) for code, (count, came) in share["tries"].items()}})


@dataclass(frozen=True, slots=True)
class RowLearning:
    """One row over all who tried it: how many were unaided the first time, and the usual session that was.

    `at_once` is None where those who were, or those who were not, are a small group; `counted` says it in words.
    """

    code: str
    tried: int
    at_once: Share | None
    counted: str
    usual_try: float | None


@dataclass(frozen=True, slots=True)
class UnitLearning:
    """`results` None where a group is too small to show. Curves, shares and chart are empty below the floor.

    `curve` has only steps that no small group can be read off: see `_wide_steps`.
    `sessions` a stay: a quarter had at most the first, half at most the second, three quarters at most the third.
    """

    floor: int
    stays: int
    results: Mapping[str, int | None]
    sessions: tuple[float, float, float] | None
    rows: tuple[RowLearning, ...]
    shares: Mapping[str, Share]
    curve: tuple[Step, ...]
    usual_days: float | None
    months: tuple[tuple[str, float], ...]
    chart: RunChart

    @property
    def past_floor(self) -> bool:
        return self.stays >= self.floor


def unit_learning(stays: Sequence[LearnedStay], floor: int) -> UnitLearning:
    """All figures of a unit; `floor` is the policy's. Rows and months of fewer than five people are left out."""
    enough = len(stays) >= floor
    judged = [stay.result for stay in stays if stay.result]
    results = shown(Counter(judged))
    curve = aalen_johansen((stay.days, stay.outcome) for stay in stays if stay.days is not None) if enough else ()
    months = _months(stays) if enough else ()
    return UnitLearning(
        floor=floor,
        stays=len(stays),
        results=results,
        sessions=_quarters([stay.sessions for stay in stays]),
        rows=_rows(stays),
        shares={
            name: share(count, len(judged)) for name, count in results.items() if enough and count is not None
        },
        curve=_wide_steps(curve),
        usual_days=first_time_at(curve, INDEPENDENT),
        months=months,
        chart=run_chart([value for _, value in months]),
    )


def _quarters(counts: Sequence[int]) -> tuple[float, float, float] | None:
    if len(counts) < FEWEST:
        return None
    low, middle, high = quantiles(counts, n=4, method="inclusive")
    return low, middle, high


def _rows(stays: Iterable[LearnedStay]) -> tuple[RowLearning, ...]:
    """Those that fail first, first; between two that fail alike, by code."""
    tries: dict[str, list[tuple[int, bool]]] = {}
    for stay in stays:
        for code, told in stay.tries.items():
            tries.setdefault(code, []).append(told)
    enough = {code: told for code, told in tries.items() if len(told) >= FEWEST}
    return tuple(_row(code, enough[code]) for code in sorted(enough, key=lambda code: (_at_once(enough[code]), code)))


def _at_once(told: Sequence[tuple[int, bool]]) -> float:
    return sum(reached and number == 1 for number, reached in told) / len(told)


def _row(code: str, told: Sequence[tuple[int, bool]]) -> RowLearning:
    """The usual session is the median over all who tried; None where half never got there unaided."""
    at_once = sum(reached and number == 1 for number, reached in told)
    waiting = [number if reached else float("inf") for number, reached in told]
    usual = median(waiting)
    said = share(at_once, len(told)) if no_few(at_once, len(told) - at_once) else None
    counted = _counted(at_once, len(told))
    return RowLearning(code, len(told), said, counted, None if usual == float("inf") else usual)


def _counted(count: int, total: int) -> str:
    if no_few(count, total - count):
        return f"{count} of {total}"
    if no_few(count):
        return f"all but fewer than {FEWEST} of {total}"
    return f"fewer than {FEWEST} of {total}" if no_few(total - count) else f"hidden (both groups under {FEWEST})"


def _wide_steps(curve: Sequence[Step]) -> tuple[Step, ...]:
    """The steps after which each outcome has grown by nobody or by enough, and as many or nobody are left over."""
    wide: list[Step] = []
    for step in curve:
        before = wide[-1].counts if wide else dict.fromkeys(step.counts, 0)
        if no_few(step.left_over, *(count - before[outcome] for outcome, count in step.counts.items())):
            wide.append(step)
    return tuple(wide)


def _months(stays: Iterable[LearnedStay]) -> tuple[tuple[str, float], ...]:
    """The share that left self-caring or with a named helper, by month; months with few stays are left out."""
    by_month: dict[str, list[bool]] = {}
    for stay in stays:
        if stay.result and stay.month:
            by_month.setdefault(stay.month, []).append(stay.result in ("self-caring", "with a named helper"))
    return tuple(
        (month, sum(told) / len(told)) for month, told in sorted(by_month.items()) if len(told) >= FEWEST
    )
