"""Exact: the ways home agree with trying everything, judged by readiness itself."""

import os
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from small_homes import DEFAULT, LEANS, NOW, Home

from teaching.rules.chances import Opportunity
from teaching.rules.prospect import Prospect, timeline
from teaching.rules.ways import Ways

CASES = int(os.environ.get("PLAN_HOMES", "40"))  # thousands were run by hand: see DEVELOPERS.md
BATCH = 20


@pytest.mark.parametrize("first", range(0, CASES, BATCH))
def test_union_over_sets_and_rows_together_agree_with_enumeration(first):
    for seed in range(first, first + BATCH):
        home = Home(seed)
        ways = Ways(home.situation, Prospect(home.chart, DEFAULT, NOW, "s", home.line))
        mine = {lean: ways.reachable(lean) for lean in LEANS}
        assert mine == home.enumerated(), f"case {seed}"


def earliest(home, opportunities):
    """For each lean the first moment; what is due after leaving stays as it is, for a change moves it."""
    line = timeline(opportunities, NOW, home.planned)
    ways = Ways(home.situation, Prospect(home.chart, DEFAULT, NOW, "s", line))
    return [line.earliest(ways.reachable(lean)) for lean in LEANS]


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 100_000), st.sampled_from(["change", "emptying"]), st.integers(1, 60), st.booleans(),
       st.sets(st.integers(0, 3)))
def test_more_opportunities_never_move_the_earliest_day_later(seed, procedure, hours, practice, kept):
    home = Home(seed)
    fewer = tuple(one for number, one in enumerate(home.opportunities) if number in kept)
    everybody = frozenset(one.key for one in home.learners)
    one = Opportunity(NOW + timedelta(hours=hours), procedure, "s", everybody, practice=practice, signed_off=True)
    for more in ((*fewer, one), home.opportunities, (*home.opportunities, replace(one, teacher="Other Nurse"))):
        for before, after in zip(earliest(home, fewer), earliest(home, more), strict=True):
            assert before is None or (after is not None and after <= before)
