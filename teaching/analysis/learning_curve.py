"""A nurse's learning curve in rating, and drift afterwards: offered to educators, never a verdict.

One session rated by nurse and assessor together is one outcome: a success where both call the same required steps
met and stand within one level elsewhere. LC-CUSUM: Biau et al. 2008.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log

UNACCEPTABLE = 0.30  # share of mismatched sessions at which somebody is still learning
ACCEPTABLE = 0.10
CLEAN_SESSIONS = 10  # the signal is worth this many clean sessions in a row
DRIFT_LIMIT = 3.0


@dataclass(frozen=True, slots=True)
class Score:
    """The running score after each outcome and the position at which the limit was first reached, or None."""

    values: tuple[float, ...]
    limit: float
    reached_at: int | None


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
