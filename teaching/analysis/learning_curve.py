"""A nurse's learning curve in rating, and drift afterwards: offered to educators, never a verdict.

One session rated by nurse and assessor together is one outcome: a success where both call the same required steps
met and stand within one level elsewhere. LC-CUSUM: Biau et al. 2008.
"""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import log

import numpy as np

from teaching.rules.vocabulary import LEVEL_CODES, UNAIDED

UNACCEPTABLE = 0.30  # share of mismatched sessions at which somebody is still learning
ACCEPTABLE = 0.10
CLEAN_SESSIONS = 10  # the signal is worth this many clean sessions in a row
DRIFT_LIMIT = 3.0
MET = frozenset((UNAIDED, "right", "not_needed", "own_words"))
FINE = 800  # steps the score is cut into where a run length is worked out

Pair = tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class Score:
    """The running score after each outcome and the position at which the limit was first reached, or None."""

    values: tuple[float, ...]
    limit: float
    reached_at: int | None


@dataclass(frozen=True, slots=True)
class Curve:
    """Of `sessions` rated together, `alike` were read alike. `shown_at`: the place at which that was shown, or None.

    `drift`: since then read differently more often than chance would have it.
    """

    sessions: int
    alike: int
    shown_at: int | None
    drift: bool


def read_alike(pairs: Sequence[Pair], required: Collection[str]) -> bool | None:
    """Whether two raters read one session alike; `pairs` of (row, answer, answer). None where nothing was rated.

    A required row: both met it or neither did. Any other: the same answer, or levels at most one apart.
    """
    if not pairs:
        return None
    return all(
        (first in MET) == (second in MET) if row in required else _near(first, second) for row, first, second in pairs
    )


def _near(first: str, second: str) -> bool:
    levels = {first, second} <= set(LEVEL_CODES)
    return first == second or (levels and abs(int(first) - int(second)) <= 1)


def curve(successes: Sequence[bool]) -> Curve:
    """Where a nurse stands after these sessions, oldest first. Drift is looked for only after learning was shown."""
    shown = learned(successes).reached_at
    after = successes[shown + 1 :] if shown is not None else []
    drift = drifted(after).reached_at is not None
    return Curve(len(successes), sum(successes), shown, drift)


@lru_cache
def sessions_to_false_alarm() -> int:
    """Sessions until drift is said by chance alone, on average, where one in ten is read differently."""
    up, down = learning_weights()

    def rises_at_most(by: np.ndarray) -> np.ndarray:
        return (by >= -up) * (1 - ACCEPTABLE) + (by >= -down) * ACCEPTABLE

    return round(mean_run_length(rises_at_most, DRIFT_LIMIT))


def mean_run_length(reach: Callable[[np.ndarray], np.ndarray], limit: float, states: int = FINE) -> float:
    """Mean outcomes until a score that starts at 0 and never falls below it reaches the limit.

    `reach(x)` is the chance, for each x of an array, that one outcome changes the score by x or less. The score is
    cut into states and walked as a Markov chain: Brook and Evans 1972, Biometrika 59(3).
    """
    width = 2 * limit / (2 * states - 1)
    apart = np.subtract.outer(np.arange(states), np.arange(states)).T * width  # to state j from state i
    chances = reach(apart + width / 2) - reach(apart - width / 2)
    chances[:, 0] = reach(apart[:, 0] + width / 2)
    return float(np.linalg.solve(np.eye(states) - chances, np.ones(states))[0])


def learning_weights(acceptable: float = ACCEPTABLE, unacceptable: float = UNACCEPTABLE) -> tuple[float, float]:
    """(weight of a success, weight of a failure): ln((1-p0)/(1-p1)) and ln(p0/p1)."""
    return log((1 - acceptable) / (1 - unacceptable)), log(acceptable / unacceptable)


def learned(successes: Sequence[bool]) -> Score:
    """S = max(0, S + W) from 0: rises with each success; reaching the limit says the two now rate alike."""
    up, down = learning_weights()
    return _score([up if success else down for success in successes], up * CLEAN_SESSIONS)


def drifted(successes: Sequence[bool]) -> Score:
    """The same walk with the signs turned: failures add 1.0986, successes take away .2513; an alarm at 3."""
    up, down = learning_weights()
    return _score([-up if success else -down for success in successes], DRIFT_LIMIT)


def _score(weights: Sequence[float], limit: float) -> Score:
    values, score = [], 0.0
    for weight in weights:
        score = max(0.0, score + weight)
        values.append(score)
    reached = next((place for place, value in enumerate(values) if value >= limit - 1e-9), None)
    return Score(tuple(values), limit, reached)
