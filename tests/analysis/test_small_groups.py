"""Small groups stay hidden, also from whoever can subtract."""

from itertools import product

import pytest

from teaching.analysis.small_groups import FEWEST, shown


@pytest.mark.parametrize(("counts", "seen"), [
    ({"a": 20, "b": 8, "c": 5}, {"a": 20, "b": 8, "c": 5}),
    ({"a": 20, "b": 8, "c": 3}, {"a": 20, "b": None, "c": None}),
    ({"a": 20, "b": 2, "c": 4}, {"a": 20, "b": None, "c": None}),
    ({"a": 20, "b": 2, "c": 1}, {"a": None, "b": None, "c": None}),
    ({"a": 20, "b": 0}, {"a": 20, "b": 0}),
    ({"a": 3}, {"a": None}),
    ({"a": 3, "b": 0}, {"a": None, "b": None}),
    ({}, {}),
])
def test_what_is_shown(counts, seen):
    assert shown(counts) == seen


def test_nothing_can_be_worked_out_by_subtraction():
    """Every table of three groups up to nine people each, by brute force: whoever knows the whole and all that is
    shown still finds two different ways to fill a hidden small group."""
    for counts in product(range(0, 10), repeat=3):
        named = dict(zip("abc", counts, strict=True))
        seen = shown(named)
        small = {name for name, count in named.items() if 0 < count < FEWEST}
        assert all(seen[name] is None for name in small)
        hidden = [named[name] for name, count in seen.items() if count is None]
        if small and sum(counts) >= FEWEST:
            assert len(hidden) >= 2
            assert sum(hidden) >= FEWEST
