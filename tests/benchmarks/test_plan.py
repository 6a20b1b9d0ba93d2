"""The teaching plan: at most 2 ms for one learner, 8 ms where two must learn, over eight days."""

from dataclasses import replace
from datetime import timedelta

import pytest

from teaching.rules.assess import assess
from teaching.rules.plan import plan
from tests.benchmarks.measuring import processor_ms, say
from tests.rules.story import at
from tests.rules.test_plan import books, taught

BOUNDS = {"one learner": 2, "two who must both learn": 8}
DAYS, NIGHTS = "1" * 12, "0" * 12


def story(who):
    """Two weeks ago nothing was amiss: eight days to leaving, a change every other day, and an appointment."""
    told = taught().leaving("Wed+1 12:00")
    if who == "one learner":
        return books(told, "Thu 11:00", may_teach=True)
    told.helper()
    learners = tuple(
        replace(one, week=(DAYS + NIGHTS) * 7) if one.kind == "helper" else one for one in told.chart.learners
    )
    told.chart = replace(told.chart, learners=learners)
    return books(told, "Thu 11:00", learners=("person", "helper"), may_teach=True)


@pytest.mark.benchmark
@pytest.mark.parametrize("who", BOUNDS)
def test_the_plan(who):
    told, now = story(who), at("Tue 12:00") + timedelta(minutes=5)
    found = assess(told.chart, told.policy, now)

    def make():
        return replace(told.chart)

    took = processor_ms(make, lambda chart: plan(chart, found, told.policy, now, try_moves=False), rounds=60)
    moves = processor_ms(make, lambda chart: plan(chart, found, told.policy, now), rounds=10)
    say(f"plan, {who}: {took:.2f} ms (at most {BOUNDS[who]}); with aims and every move tried {moves:.1f} ms")
    assert took <= BOUNDS[who]
