"""The teaching plan: at most 2 ms for one learner, 8 ms where two must learn, over two weeks."""

from dataclasses import replace
from datetime import timedelta

import pytest

from teaching.rules.assess import assess
from teaching.rules.plan import plan
from teaching.rules.readiness import SELF_CARING, WITH_HELPER
from tests.benchmarks.measuring import processor_ms, say
from tests.rules.story import at
from tests.rules.test_plan import books, taught
from tests.rules.test_plan_sets import everything_booked, two_helpers

BOUNDS = {"one learner": 2, "two who must both learn": 8}


def story(who):
    """Two weeks to leaving: changes by the interval, three chances to empty a day, a time booked.

    Where two must learn the person takes no part; one helper is there by day, the other by night, and neither has
    shown a step yet: every showing has to be shared.
    """
    if who == "one learner":
        return books(taught().leaving("Tue+2 12:00"), "Thu 11:00", may_teach=True)
    told = two_helpers().leaving("Tue+2 12:00")
    return everything_booked(told, "Tue 13:00", "Wed 13:00", "Thu 13:00", "Fri 13:00", "Mon+1 13:00")


@pytest.mark.benchmark
@pytest.mark.parametrize("who", BOUNDS)
def test_the_plan(who):
    told, now = story(who), at("Tue 12:00") + timedelta(minutes=5)
    found = assess(told.chart, told.policy, now)

    reached = plan(told.chart, found, told.policy, now).reach
    assert reached.first(SELF_CARING if who == "one learner" else WITH_HELPER)

    def make():
        return replace(told.chart)

    took, slower = processor_ms(make, lambda chart: plan(chart, found, told.policy, now, try_moves=False), rounds=60)
    moves, _ = processor_ms(make, lambda chart: plan(chart, found, told.policy, now), rounds=10)
    chances = len(plan(told.chart, found, told.policy, now).chances)
    say(f"plan, {who}, {chances} opportunities: {took:.2f} ms (at most {BOUNDS[who]}, "
        f"machine {slower:.2f} times as slow); "
        f"with aims and every move tried {moves:.1f} ms")
    assert took / slower <= BOUNDS[who]
