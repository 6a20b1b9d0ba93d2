"""A unit's figures against published tables; the source stands beside each check."""

from statistics import NormalDist

import numpy as np
import pytest

from teaching.analysis.agreement import coefficients
from teaching.analysis.intervals import share
from teaching.analysis.learning_curve import learned, learning_weights, mean_run_length
from teaching.analysis.time_to_independence import aalen_johansen


# Cohen 1968, Table 1, with its kappa, and the linear and quadratic weighted kappa worked out from it.
@pytest.mark.parametrize(("power", "kappa"), [(0, 0.492), (1, 0.4737), (2, 0.4545)])
def test_kappa(power, kappa):
    table = np.array([[88, 10, 2], [14, 40, 6], [18, 10, 12]], dtype=float)
    assert float(coefficients(table, power)[1]) == pytest.approx(kappa, abs=5e-4)


def test_ac1_and_ac2():
    """Gwet 2014, Handbook of Inter-Rater Reliability, the abstractors."""
    table = np.array([[13, 0, 0], [0, 20, 7], [0, 4, 56]], dtype=float)
    agreed, kappa, ac1 = (float(value) for value in coefficients(table, 0))
    assert (round(agreed, 2), round(kappa, 3), round(ac1, 3)) == (0.89, 0.796, 0.849)
    assert float(coefficients(table, 2)[2]) == pytest.approx(0.940, abs=5e-4)


# Newcombe 1998, Statistics in Medicine, Table I, method 3.
@pytest.mark.parametrize(("count", "total", "low", "high"), [(81, 263, 0.2553, 0.3662), (0, 20, 0, 0.1611)])
def test_wilson(count, total, low, high):
    found = share(count, total)
    assert (found.low, found.high) == (pytest.approx(low, abs=5e-5), pytest.approx(high, abs=5e-5))


def test_survival():
    """Freireich 1963, the 6-MP arm: weeks in remission."""
    relapsed = [6, 6, 6, 7, 10, 13, 16, 22, 23]
    censored = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]
    steps = aalen_johansen([(week, "relapse") for week in relapsed] + [(week, "") for week in censored])
    assert [round(step.none_yet, 3) for step in steps] == [0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448]


def test_competing_risks():
    """Satagopan 2004, Table 2, its nine people: the event's incidence where another outcome competes."""
    people = [(7, ""), (10, "event"), (14, ""), (16, "event"), (18, "rival"), (23, "event"), (24, ""),
              (26, "rival"), (27, "event")]
    reached = {step.time: step.reached["event"] for step in aalen_johansen(people)}
    assert [reached[time] for time in (10, 16, 23, 27)] == pytest.approx([1 / 8, 13 / 48, 5 / 12, 61 / 96])
    alone = aalen_johansen([(time, what if what == "event" else "") for time, what in people])
    naive = [step.reached["event"] for step in alone]
    assert naive == pytest.approx([0.125, 0.271, 0.453, 1.0], abs=1e-3)


def test_learning_weights():
    """Biau et al. 2008: the weights for 10% and 30%, and the walk 1, 1, 0, then ten 1."""
    assert [round(weight, 4) for weight in learning_weights()] == [0.2513, -1.0986]
    walk = learned([True, True, False] + [True] * 10)
    assert [round(value, 4) for value in walk.values[:3]] == [0.2513, 0.5026, 0.0]
    assert round(walk.values[-1], 4) == 2.5131
    assert walk.reached_at == 12


def test_how_long_a_cusum_runs_with_no_shift():
    """Brook and Evans 1972, Biometrika 59(3); Waldmann 1986, Technometrics 28(1): k .5, h 3, 117.6 (from memory)."""
    falls = np.vectorize(lambda by: NormalDist().cdf(by + 0.5), otypes=[float])
    assert mean_run_length(falls, 3, states=100) == pytest.approx(117.6, rel=2e-3)
