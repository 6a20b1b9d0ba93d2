"""Each sentence of the rules, I1-I17 and R1-R14, is named by at least one test that holds it."""

import re
from pathlib import Path

import pytest

HERE = Path(__file__).parent


@pytest.mark.parametrize("number", range(1, 18))
def test_named(number):
    here = "\n".join(path.read_text() for path in HERE.glob("test_independence_*.py"))
    assert re.search(rf"def test_i{number}_", here), f"no test is named test_i{number}_..."


@pytest.mark.parametrize("number", range(1, 15))
def test_named_of_readiness(number):
    here = "\n".join(path.read_text() for path in (*HERE.glob("test_readiness_*.py"), HERE / "test_cover.py"))
    assert re.search(rf"def test_r{number}_", here), f"no test is named test_r{number}_..."
