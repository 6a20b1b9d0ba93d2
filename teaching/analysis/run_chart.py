"""A run chart by month: the median, and the two usual rules that say something has changed.

Rules (Perla, Provost, Murray 2011, BMJ Qual Saf 20:46; values from memory): a shift is six or more points in a row
on one side of the median, points on the median neither counting nor breaking it; a trend is five or more points
all rising or all falling, a repeated value neither counting nor breaking it.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

SHIFT_POINTS = 6
TREND_POINTS = 5


@dataclass(frozen=True, slots=True)
class RunChart:
    """`shifts` and `trends` are (first, last) positions in `points`, both included."""

    points: tuple[float, ...]
    median: float | None
    shifts: tuple[tuple[int, int], ...]
    trends: tuple[tuple[int, int], ...]


def run_chart(points: Sequence[float]) -> RunChart:
    """The median of all points and where the rules are met."""
    if not points:
        return RunChart((), None, (), ())
    middle = median(points)
    sides = [_sign(point - middle) for point in points]
    moves = [0] + [_sign(after - before) for before, after in pairwise(points)]
    shifts = tuple((first, last) for first, last, count in _runs(sides) if count >= SHIFT_POINTS)
    # A run of moves starts at the point before its first move, so n points make n - 1 moves.
    trends = tuple((first - 1, last) for first, last, count in _runs(moves) if count >= TREND_POINTS - 1)
    return RunChart(tuple(points), middle, shifts, trends)


def _sign(value: float) -> int:
    return (value > 0) - (value < 0)


def _runs(signs: Sequence[int]) -> list[tuple[int, int, int]]:
    """(first, last, how many) of each stretch of one sign; zeros neither count nor break it."""
    runs: list[tuple[int, int, int]] = []
    current = 0
    for position, sign in enumerate(signs):
        if sign == 0:
            continue
        if sign == current:
            first, _, count = runs[-1]
            runs[-1] = (first, position, count + 1)
        else:
            runs.append((position, position, 1))
            current = sign
    return runs
