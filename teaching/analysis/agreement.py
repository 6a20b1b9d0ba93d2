"""Do two nurses mean the same thing by a level? Percent agreement, weighted kappa and Gwet's AC2, side by side.

Kappa collapses when most ratings are "unaided", so it never stands alone. Intervals come from resampling
whole sessions: the ratings of one session share a person, a day and two raters, and formula intervals
that treat them as independent are far too narrow.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isnan

import numpy as np

Pair = tuple[str, str]
Range = tuple[float | None, float | None]

NO_RANGE: Range = (None, None)
RESAMPLES = 1000
FEWEST_SESSIONS = 10


@dataclass(frozen=True, slots=True)
class Figure:
    """A value with its resampled 95% interval; None where it cannot be said ("n/a")."""

    value: float | None
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Agreement:
    """Over `pairs` ratings in `sessions` sessions. `difference` is second minus first rater, in levels."""

    pairs: int
    sessions: int
    agreed: Figure
    kappa: Figure
    ac2: Figure
    difference: float | None


def weights(size: int, power: int) -> np.ndarray:
    """Agreement weights, size x size: 1 on the diagonal; power 0 exact match, 1 linear, 2 quadratic."""
    if power == 0 or size == 1:
        return np.eye(size)
    apart = np.abs(np.subtract.outer(np.arange(size), np.arange(size)))
    return 1 - (apart / (size - 1)) ** power


def coefficients(table: np.ndarray, power: int = 2) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """(share agreed exactly, weighted kappa, AC2) of count tables shaped (..., levels, levels), rows first rater.

    kappa: Cohen 1968. AC1 and AC2: Gwet 2014, Handbook of Inter-Rater Reliability, 4th ed. NaN where undefined:
    no pairs, or chance agreement already complete (one category in use has no kappa).
    """
    size = table.shape[-1]
    weight = weights(size, power)
    total = table.sum(axis=(-2, -1))
    with np.errstate(divide="ignore", invalid="ignore"):
        shares = table / total[..., None, None]
        first, second = shares.sum(axis=-1), shares.sum(axis=-2)
        exact = np.trace(shares, axis1=-2, axis2=-1)
        observed = (shares * weight).sum(axis=(-2, -1))
        by_chance = np.einsum("...i,ij,...j->...", first, weight, second)
        kappa = (observed - by_chance) / (1 - by_chance)
        prevalence = (first + second) / 2
        spread = (prevalence * (1 - prevalence)).sum(axis=-1)
        gwet = weight.sum() * spread / (size * (size - 1)) if size > 1 else 1.0
        ac2 = (observed - gwet) / (1 - gwet)
    kappa = np.where(np.isclose(by_chance, 1), np.nan, kappa)
    return exact, kappa, ac2


def agreement(sessions: Mapping[str, Sequence[Pair]], levels: Sequence[str], seed: int = 0) -> Agreement:
    """Agreement over paired ratings grouped by session; `levels` in order, lowest first.

    Only pairs with both answers in `levels` count: not attempted is not a level. The same seed gives the same
    interval; below 10 sessions there is none.
    """
    place = {level: position for position, level in enumerate(levels)}
    kept = [[(place[a], place[b]) for a, b in pairs if a in place and b in place] for pairs in sessions.values()]
    tables = np.zeros((len(kept), len(levels), len(levels)))
    for number, pairs in enumerate(kept):
        for a, b in pairs:
            tables[number, a, b] += 1
    tables = tables[tables.sum(axis=(1, 2)) > 0]
    count = int(tables.sum())
    if not count:
        return Agreement(0, 0, Figure(None), Figure(None), Figure(None), None)
    whole = [float(value) for value in coefficients(tables.sum(axis=0))]
    ranges = _resampled(tables, seed) if len(tables) >= FEWEST_SESSIONS else [NO_RANGE] * len(whole)
    apart = np.subtract.outer(np.arange(len(levels)), np.arange(len(levels)))
    difference = float((tables.sum(axis=0) * -apart).sum() / count)
    agreed, kappa, ac2 = (
        Figure(None) if isnan(value) else Figure(value, *interval)
        for value, interval in zip(whole, ranges, strict=True)
    )
    return Agreement(count, len(tables), agreed, kappa, ac2, difference)


def _resampled(tables: np.ndarray, seed: int) -> list[Range]:
    draws = np.random.default_rng(seed).multinomial(len(tables), [1 / len(tables)] * len(tables), size=RESAMPLES)
    resampled = np.tensordot(draws, tables, axes=1)
    ranges: list[Range] = []
    for values in coefficients(resampled):
        known = values[~np.isnan(values)]
        # Where one resample in twenty cannot say, the interval would rest on the lucky ones.
        if len(known) < 0.95 * RESAMPLES:
            ranges.append(NO_RANGE)
        else:
            ranges.append((float(np.quantile(known, 0.025)), float(np.quantile(known, 0.975))))
    return ranges
