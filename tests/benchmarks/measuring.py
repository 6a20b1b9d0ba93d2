"""How long things take beside each other: in turns, in one process, so that a busy machine slows both alike."""

import gc
import os
import platform
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter, thread_time

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


def processor_ms(make: Callable[[], object], act: Callable, rounds: int) -> float:
    """The median processor milliseconds of `act(made)`, each time on a thing freshly made, so nothing is warm."""
    taken = []
    for _ in range(rounds):
        made = make()
        began = thread_time()
        act(made)
        taken.append(thread_time() - began)
    return median(taken) * 1000


def say(words: str) -> None:
    """Shown with -s, and kept where BENCHMARK_LINES names a file."""
    print(f"\n  {words}")
    if KEPT:
        with Path(KEPT).open("a", encoding="utf-8") as file:
            file.write(f"{words}\n")


def machine() -> str:
    return f"{os.cpu_count()} cores, Python {platform.python_version()}, {platform.system()} {platform.machine()}"
