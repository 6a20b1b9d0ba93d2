"""Each sentence I1-I17 is named by at least one test that holds it."""

import re
from pathlib import Path

import pytest


@pytest.mark.parametrize("number", range(1, 18))
def test_named(number):
    here = "\n".join(path.read_text() for path in Path(__file__).parent.glob("test_independence_*.py"))
    assert re.search(rf"def test_i{number}_", here), f"no test is named test_i{number}_..."
