"""Shares with their intervals."""

from dataclasses import dataclass
from math import sqrt
from statistics import NormalDist


@dataclass(frozen=True, slots=True)
class Share:
    """`count` of `total`, with the Wilson score interval; all three None where total is 0."""

    count: int
    total: int
    value: float | None
    low: float | None
    high: float | None


def share(count: int, total: int, confidence: float = 0.95) -> Share:
    """A proportion with its Wilson score interval (Wilson 1927; Newcombe 1998, method 3).

    Raises ValueError unless 0 <= count <= total and 0 < confidence < 1.
    """
    if not 0 <= count <= total:
        raise ValueError(f"count must lie between 0 and total, not {count} of {total}")
    if not 0 < confidence < 1:
        raise ValueError(f"confidence must lie between 0 and 1, not {confidence}")
    if total == 0:
        return Share(0, 0, None, None, None)
    z = NormalDist().inv_cdf(0.5 + confidence / 2)
    p = count / total
    middle = p + z * z / (2 * total)
    reach = z * sqrt(p * (1 - p) / total + z * z / (4 * total * total))
    scale = 1 + z * z / total
    # A share of none or all touches its own bound exactly; floating point must not say otherwise.
    low = 0.0 if count == 0 else (middle - reach) / scale
    high = 1.0 if count == total else (middle + reach) / scale
    return Share(count, total, p, low, high)
