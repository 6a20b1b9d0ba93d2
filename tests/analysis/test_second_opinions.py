"""The unit's figures against general reference libraries, on made-up numbers from a fixed seed.

Cohen's kappa: scikit-learn. Wilson: statsmodels. Survival and competing risks: statsmodels.
For Gwet's AC2 neither library has it: it is worked out a second time from its definition, pair by pair.
"""

import random
from itertools import product

import numpy as np
import pytest
from sklearn.metrics import cohen_kappa_score
from statsmodels.duration.survfunc import CumIncidenceRight, SurvfuncRight
from statsmodels.stats.proportion import proportion_confint

from teaching.analysis.agreement import coefficients
from teaching.analysis.intervals import share
from teaching.analysis.time_to_independence import aalen_johansen

SEEDS = range(12)


def made_up_ratings(seed, levels=6, pairs=80):
    """Two raters who mostly agree; the second strays by a level or two now and then."""
    dice = random.Random(seed)
    first = [dice.choice(range(levels)) for _ in range(pairs)]
    second = [min(levels - 1, max(0, level + dice.choice([0, 0, 0, 1, -1, 2]))) for level in first]
    return first, second


def table_of(first, second, levels=6):
    table = np.zeros((levels, levels))
    for a, b in zip(first, second, strict=True):
        table[a, b] += 1
    return table


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize(("power", "named"), [(0, None), (1, "linear"), (2, "quadratic")])
def test_kappa_as_scikit_learn_has_it(seed, power, named):
    first, second = made_up_ratings(seed)
    expected = cohen_kappa_score(first, second, labels=list(range(6)), weights=named)
    assert float(coefficients(table_of(first, second), power)[1]) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize("seed", SEEDS)
def test_ac2_worked_out_a_second_time_pair_by_pair(seed):
    first, second = made_up_ratings(seed)
    levels, pairs = range(6), len(first)
    weight = {(a, b): 1 - ((a - b) / 5) ** 2 for a, b in product(levels, levels)}
    observed = sum(weight[pair] for pair in zip(first, second, strict=True)) / pairs
    used = {level: (first.count(level) + second.count(level)) / (2 * pairs) for level in levels}
    by_chance = sum(weight.values()) * sum(part * (1 - part) for part in used.values()) / (6 * 5)
    expected = (observed - by_chance) / (1 - by_chance)
    assert float(coefficients(table_of(first, second), 2)[2]) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize(("count", "total"), [(0, 7), (1, 7), (7, 7), (13, 40), (71, 107), (999, 1000)])
def test_wilson_as_statsmodels_has_it(count, total):
    found = share(count, total)
    low, high = proportion_confint(count, total, method="wilson")
    assert (found.low, found.high) == (pytest.approx(low, abs=1e-12), pytest.approx(high, abs=1e-12))


def made_up_stays(seed, people=60):
    dice = random.Random(seed)
    return [(dice.randrange(1, 15), dice.choice(["independent", "left", ""])) for _ in range(people)]


@pytest.mark.parametrize("seed", SEEDS)
def test_competing_risks_as_statsmodels_has_them(seed):
    stays = made_up_stays(seed)
    code = {"": 0, "independent": 1, "left": 2}
    theirs = CumIncidenceRight(np.array([time for time, _ in stays]), np.array([code[what] for _, what in stays]))
    ours = aalen_johansen(stays)
    for place, time in enumerate(theirs.times):  # theirs lists the times of censorings too
        by_then = next((step.reached for step in reversed(ours) if step.time <= time), {})
        for what in ("independent", "left"):
            assert by_then.get(what, 0) == pytest.approx(theirs.cinc[code[what] - 1][place], abs=1e-12)


@pytest.mark.parametrize("seed", SEEDS)
def test_survival_as_statsmodels_has_it(seed):
    stays = [(time, what if what == "independent" else "") for time, what in made_up_stays(seed)]
    status = np.array([what == "independent" for _, what in stays], dtype=int)
    theirs = SurvfuncRight(np.array([time for time, _ in stays]), status)
    ours = {step.time: step.none_yet for step in aalen_johansen(stays)}
    assert {float(time): pytest.approx(value, abs=1e-12) for time, value in
            zip(theirs.surv_times, theirs.surv_prob, strict=True)} == ours
