"""How long things take beside each other: in turns, in one process, so that a busy machine slows both alike.

A bound in milliseconds is of the machine in docs/benchmarks.md. What has no twin is timed in turns with a yardstick,
a fixed piece of work like that of the rules: where the yardstick takes longer than it does there, the machine is
slower by that much just then, and the time is divided by it. A faster machine makes no bound stricter.
"""

import gc
import os
import platform
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path
from statistics import median
from time import perf_counter, thread_time

YARDSTICK_MS = 0.73  # processor time of one `yardstick` on the machine of docs/benchmarks.md, measured undisturbed
BEGAN = datetime(2026, 5, 13, tzinfo=UTC)
KEPT = os.environ.get("BENCHMARK_LINES")  # a file that takes one line a measurement, for docs/benchmarks.md


def in_turns(ours: Callable[[], object], floor: Callable[[], object], rounds: int) -> tuple[float, float]:
    """The median milliseconds of each, after three rounds to warm up; who goes first changes every round."""
    times: dict[Callable, list[float]] = {ours: [], floor: []}
    for _ in range(3):
        ours()
        floor()
    gc.disable()
    try:
        for turn in range(rounds):
            for each in (ours, floor) if turn % 2 else (floor, ours):
                began = perf_counter()
                each()
                times[each].append(perf_counter() - began)
    finally:
        gc.enable()
    return median(times[ours]) * 1000, median(times[floor]) * 1000


@dataclass(frozen=True, slots=True)
class Mark:
    code: str
    level: int
    at: datetime


def yardstick() -> int:
    """400 small frozen things made, sorted by moment, grouped and compared in pairs."""
    marks = [Mark(f"row-{n % 17}", n * 7 % 6, BEGAN + timedelta(hours=n * 31 % 240)) for n in range(400)]
    by_code: dict[str, list[Mark]] = {}
    for mark in sorted(marks, key=lambda one: (one.at, one.code)):
        by_code.setdefault(mark.code, []).append(mark)
    apart = timedelta(hours=12)
    return sum(
        one.level == other.level or other.at - one.at > apart
        for told in by_code.values()
        for one, other in pairwise(told)
    )


def slowness(rounds: int = 50) -> float:
    """How many times as long as on the machine of docs/benchmarks.md work takes here and now; 1 where no longer."""
    return max(1.0, median(_processor(yardstick) for _ in range(rounds)) * 1000 / YARDSTICK_MS)


def processor_ms(make: Callable[[], object], act: Callable, rounds: int) -> tuple[float, float]:
    """The median processor milliseconds of `act(made)`, as taken, and how slow the machine was meanwhile.

    Each time on a thing freshly made, so nothing is warm, and in turns with the yardstick.
    """
    taken, stick = [], []
    for _ in range(rounds):
        made = make()
        taken.append(_processor(lambda made=made: act(made)))
        stick.append(_processor(yardstick))
    return median(taken) * 1000, max(1.0, median(stick) * 1000 / YARDSTICK_MS)


def _processor(act: Callable[[], object]) -> float:
    began = thread_time()
    act()
    return thread_time() - began


def say(words: str) -> None:
    """Shown with -s, and kept where BENCHMARK_LINES names a file."""
    print(f"\n  {words}")
    if KEPT:
        with Path(KEPT).open("a", encoding="utf-8") as file:
            file.write(f"{words}\n")


def machine() -> str:
    return f"{os.cpu_count()} cores, Python {platform.python_version()}, {platform.system()} {platform.machine()}"
