"""What a unit's figures say where there is little or nothing to say."""

import random

import pytest

from teaching.analysis.agreement import Figure, agreement
from teaching.analysis.intervals import share
from teaching.analysis.learning_curve import curve, drifted, learned, read_alike, sessions_to_false_alarm
from teaching.analysis.run_chart import run_chart
from teaching.analysis.time_to_independence import aalen_johansen, first_time_at

LEVELS = ("01", "02", "03", "04", "05", "06")


def sessions(count, *pairs):
    return {f"session {number}": list(pairs) for number in range(count)}


def test_nothing_paired_says_nothing():
    found = agreement({}, LEVELS)
    assert (found.pairs, found.sessions, found.agreed, found.difference) == (0, 0, Figure(None), None)


def test_one_category_has_no_kappa():
    found = agreement(sessions(12, ("06", "06")), LEVELS)
    assert found.agreed.value == 1
    assert found.kappa == Figure(None)


def test_not_attempted_is_no_level():
    found = agreement(sessions(3, ("06", "88"), ("10", "06"), ("04", "06")), LEVELS)
    assert (found.pairs, found.agreed.value, found.difference) == (3, 0, 2)


@pytest.mark.parametrize(("count", "has_range"), [(9, False), (10, True)])
def test_no_interval_below_ten_sessions(count, has_range):
    found = agreement(sessions(count, ("06", "06"), ("04", "05"), ("03", "03")), LEVELS)
    assert (found.ac2.low is not None) == has_range


def test_the_same_seed_gives_the_same_interval():
    paired = {f"session {n}": [("06", "06"), ("0" + str(n % 6 + 1), "0" + str((n * 5) % 6 + 1))] for n in range(25)}
    assert agreement(paired, LEVELS, seed=3) == agreement(paired, LEVELS, seed=3)
    assert agreement(paired, LEVELS, seed=3) != agreement(paired, LEVELS, seed=4)


def test_sessions_are_resampled_whole():
    """Ten rows that always stray together in one session make a wider interval than the same rows spread out."""
    together = {f"session {n}": [("06", "06" if n % 2 else "03")] * 10 for n in range(20)}
    spread = {f"session {n}": [("06", "06")] * 5 + [("06", "03")] * 5 for n in range(20)}
    wide, narrow = agreement(together, LEVELS).agreed, agreement(spread, LEVELS).agreed
    assert wide.value == narrow.value == 0.5
    assert wide.high - wide.low > 0.3
    assert narrow.high - narrow.low == 0


@pytest.mark.parametrize(("count", "total"), [(-1, 3), (4, 3)])
def test_a_share_is_part_of_its_whole(count, total):
    with pytest.raises(ValueError, match="count must lie between 0 and total"):
        share(count, total)


def test_nobody_yet():
    assert share(0, 0).value is None
    assert aalen_johansen([]) == ()
    assert run_chart([]).median is None


def test_half_never_reached():
    steps = aalen_johansen([(3, "independent"), (4, "left"), (5, "left"), (9, "")])
    assert first_time_at(steps, "independent") is None
    assert first_time_at(steps, "left") == 5


def test_leaving_first_is_not_waiting():
    """Two of four reach it, two leave before: the curve ends at a half, not at one."""
    steps = aalen_johansen([(1, "left"), (2, "left"), (3, "independent"), (4, "independent")])
    assert steps[-1].reached == {"independent": 0.5, "left": 0.5}


# Perla, Provost, Murray 2011, BMJ Qual Saf 20:46 (values from memory): six on one side, five in a row.
@pytest.mark.parametrize(("points", "shifts", "trends"), [
    ([1, 1, 1, 1, 1, 9, 9, 9, 9, 9], 0, 0),
    ([1, 1, 1, 1, 1, 1, 9, 9, 9, 9, 9, 9], 2, 0),
    ([5, 4, 5, 4, 1, 2, 3, 4, 5], 0, 1),
    ([5, 4, 5, 4, 2, 3, 4, 5], 0, 0),
    ([3, 3, 3, 3, 3, 3, 3], 0, 0),
])
def test_run_chart_rules(points, shifts, trends):
    found = run_chart(points)
    assert (len(found.shifts), len(found.trends)) == (shifts, trends)


def test_drift_takes_three_misses_close_together():
    """Failure +1.0986, limit 3 (statistics worked out from Biau et al. 2008's weights): the third in a row signals."""
    assert drifted([False, False]).reached_at is None
    assert drifted([False, False, False]).reached_at == 2
    assert drifted([False] + [True] * 5 + [False, False]).reached_at is None


def test_nine_clean_sessions_do_not_yet_signal():
    assert learned([True] * 9).reached_at is None
    assert learned([True] * 10).reached_at == 9


@pytest.mark.parametrize(
    ("pairs", "alike"),
    [
        ([("cut", "06", "06"), ("note", "03", "04")], True),
        ([("cut", "03", "05")], True),  # required, and neither met it
        ([("cut", "06", "05")], False),  # required, one step apart, but met by one alone
        ([("note", "06", "05")], True),
        ([("note", "06", "04")], False),
        ([("note", "88", "06")], False),
        ([("talk", "told", "own_words")], False),
        ([("powder", "right", "not_needed")], True),
        ([], None),
    ],
)
def test_a_session_is_read_alike_where_the_required_steps_are_met_or_not_by_both(pairs, alike):
    assert read_alike(pairs, {"cut", "talk", "powder"}) is alike


def test_drift_is_looked_for_only_after_reading_alike_was_shown():
    assert curve([False] * 30) == curve([False] * 30).__class__(30, 0, None, False)
    assert (curve([True] * 9).shown_at, curve([True] * 10).shown_at) == (None, 9)
    assert not curve([True] * 10 + [False] * 2).drift and curve([True] * 10 + [False] * 3).drift


def test_a_false_alarm_comes_about_as_seldom_as_when_it_is_tried():
    """A second way: the walk itself, 4,000 times, where one in ten is read differently (seeded)."""
    chance, tried = random.Random(1972), []
    for _ in range(4000):
        walk = [chance.random() >= 0.1 for _ in range(2500)]
        tried.append(drifted(walk).reached_at + 1)
    assert sessions_to_false_alarm() == pytest.approx(sum(tried) / len(tried), rel=0.05)
