"""Exact: the sweep agrees with trying every way of sharing, judged by the independence rule itself."""

import os

import pytest
from small_cases import NOW, Case

from teaching.rules.prospect import Prospect

CASES = int(os.environ.get("PLAN_CASES", "1500"))  # 20,000 and more were run by hand: see DEVELOPERS.md
BATCH = 250


def swept(case: Case) -> int:
    return Prospect(case.chart, case.policy, NOW, "s", case.line).held(case.demand)


@pytest.mark.parametrize("first", range(0, CASES, BATCH))
def test_the_sweep_agrees_with_enumeration(first):
    for seed in range(first, first + BATCH):
        case = Case(seed)
        mine, theirs = swept(case), case.enumerated()
        assert mine == theirs, f"case {seed}: {mine:b} is not {theirs:b} of {case.demand} {case.line.chances}"
