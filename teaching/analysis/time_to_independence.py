"""Time from surgery to independence, with leaving first as a competing event, not as censoring.

Someone who left before being independent will never be seen to become so here; treating them as "not yet known"
would promise a share that nobody reached. Someone still on the unit is censored: not yet known.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

STILL_HERE = ""


@dataclass(frozen=True, slots=True)
class Step:
    """After `time`: for each outcome the share that has had it by then, and how many (`counts`).

    `at_risk` had no outcome just before it; `left_over` have none after it.
    """

    time: float
    at_risk: int
    reached: dict[str, float]
    none_yet: float
    counts: dict[str, int]
    left_over: int


def aalen_johansen(people: Iterable[tuple[float, str]]) -> tuple[Step, ...]:
    """The cumulative incidence of each outcome (Aalen & Johansen 1978), one step for each time something happened.

    `people` are (time, outcome), outcome STILL_HERE for someone censored then. With a single outcome
    `none_yet` is the Kaplan-Meier estimate. Events come before censorings at the same time.
    Raises ValueError on a negative time.
    """
    rows = sorted(people)
    if any(time < 0 for time, _ in rows):
        raise ValueError("times count from surgery and are never negative")
    outcomes = sorted({outcome for _, outcome in rows if outcome != STILL_HERE})
    reached = dict.fromkeys(outcomes, 0.0)
    counts = dict.fromkeys(outcomes, 0)
    none_yet, at_risk = 1.0, len(rows)
    steps = []
    by_time: dict[float, Counter[str]] = {}
    for time, outcome in rows:
        by_time.setdefault(time, Counter())[outcome] += 1
    for time, happened in by_time.items():
        events = {outcome: happened[outcome] for outcome in outcomes if happened[outcome]}
        if events:
            for outcome, count in events.items():
                reached[outcome] += none_yet * count / at_risk
                counts[outcome] += count
            none_yet *= 1 - sum(events.values()) / at_risk
            left_over = at_risk - sum(happened.values())
            steps.append(Step(time, at_risk, dict(reached), none_yet, dict(counts), left_over))
        at_risk -= sum(happened.values())
    return tuple(steps)


def first_time_at(steps: Sequence[Step], outcome: str, share: float = 0.5) -> float | None:
    """The first time the outcome's curve reaches `share`; None: "not reached by half"."""
    return next((step.time for step in steps if step.reached.get(outcome, 0.0) >= share), None)
