"""Exact: the ways home agree with trying everything, judged by readiness itself."""

import os

import pytest
from small_homes import DEFAULT, LEANS, NOW, Home

from teaching.rules.prospect import Prospect
from teaching.rules.ways import Ways

CASES = int(os.environ.get("PLAN_HOMES", "60"))  # thousands were run by hand: see DEVELOPERS.md
BATCH = 20


@pytest.mark.parametrize("first", range(0, CASES, BATCH))
def test_union_over_sets_and_rows_together_agree_with_enumeration(first):
    for seed in range(first, first + BATCH):
        home = Home(seed)
        ways = Ways(home.situation, Prospect(home.chart, DEFAULT, NOW, "s", home.line))
        mine = {lean: ways.reachable(lean) for lean in LEANS}
        assert mine == home.enumerated(), f"case {seed}"
