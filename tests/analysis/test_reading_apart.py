"""Rows that two nurses read differently: hidden below twenty paired sessions, the widest apart first."""

from functools import partial

import pytest

from teaching.analysis.reading_apart import reading_apart as reading
from teaching.rules.policy import DEFAULT

FEWEST = DEFAULT.paired_sessions
reading_apart = partial(reading, fewest=FEWEST)


def sessions(count, *pairs):
    return {f"session {number}": list(pairs) for number in range(count)}


@pytest.mark.parametrize(("count", "shown"), [(FEWEST - 1, False), (FEWEST, True)])
def test_hidden_under_twenty_paired_sessions(count, shown):
    found = reading_apart(sessions(count, ("cut", "06", "04")))
    assert (found.sessions, found.overall is not None, bool(found.rows)) == (count, shown, shown)


def test_rows_read_most_differently_come_first_with_the_two_levels():
    told = sessions(15, ("cut", "06", "04"), ("join", "06", "06"), ("press", "06", "05"))
    told |= {f"more {n}": [("cut", "04", "06"), ("join", "06", "06"), ("press", "06", "06")] for n in range(15)}
    found = reading_apart(told)
    assert [(row.code, row.found.agreed.value, row.apart) for row in found.rows] == [
        ("cut", 0, ("04", "06")), ("press", 0.5, ("05", "06")), ("join", 1, None),
    ]  # fmt: skip


@pytest.mark.parametrize(("count", "shown"), [(9, False), (10, True)])
def test_a_row_that_few_pairs_met_is_left_out(count, shown):
    told = sessions(25, ("join", "06", "06"))
    for number in range(count):
        told[f"session {number}"].append(("cut", "06", "04"))
    assert ("cut" in [row.code for row in reading_apart(told).rows]) is shown


def test_judgements_and_what_was_not_rated_are_no_levels():
    found = reading_apart(sessions(25, ("powder", "right", "wrong"), ("cut", "06", "88")))
    assert (found.sessions, found.overall) == (0, None)
