"""The cover by hour in words: the first time that nobody is there, and how often more."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from teaching.rules.cover import Span
from teaching.rules.cover_said import bare_words, stretches
from teaching.rules.readiness import Cover
from tests.rules.story import UTC_WARD, at

SPAN = Span(at("Thu 12:00"), at("Thu 12:00"), 168)


@given(some.integers(min_value=0, max_value=2**200))
def test_stretches_are_the_bits_and_never_touch(hours):
    found = list(stretches(hours))
    assert sum(((1 << length) - 1) << first for first, length in found) == hours
    assert all(first + length < following for (first, length), (following, _) in pairwise(found))


@pytest.mark.parametrize(("covered", "words"), [
    (SPAN.full, "somebody at every hour asked for."),
    (0, "nobody at any hour."),
    (SPAN.full & ~(0b111 << 8), "nobody from Thu 14 May 20:00 to Thu 14 May 23:00."),
    (SPAN.full & ~(1 << 8 | 1 << 32 | 1 << 56), "nobody from Thu 14 May 20:00 to Thu 14 May 21:00, and 2 times more."),
])
def test_words(covered, words):
    assert bare_words(Cover("s", "pouch", SPAN.full, (("person", covered),)), SPAN, UTC_WARD) == words


def test_hours_that_are_not_asked_for_are_not_bare():
    nights = 0b11 << 10
    assert bare_words(Cover("s", "night", nights, (("person", nights),)), SPAN, UTC_WARD) == (
        "somebody at every hour asked for.")
