"""The cover by hour in words: the first time that nobody is there, and how often more."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from teaching.rules.cover import Span
from teaching.rules.cover_said import MUST_KNOW, NOBODY_THERE, TOGETHER, bare_words, cover_drawing, stretches
from teaching.rules.readiness import Cover
from tests.rules.going_home import ALL_HOURS, BY_DAY, Going, all_held, only
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


def drawn(story):
    return cover_drawing(story.chart, story.ready(), "Ada")


def test_one_alone_is_drawn_once_a_part():
    found = drawn(all_held().all_else(("leak-service",)))
    assert [row.name for row in found.rows] == ["A full pouch", "A leak"]
    assert found.sentences == [f"{part}: somebody at every hour asked for." for part in ("A full pouch", "A leak")]


def test_who_does_not_know_what_must_be_known_is_not_counted_and_that_is_said():
    """R4. Else "nobody at any hour" would stand beside somebody who empties alone."""
    story = Going("colostomy").holds("pouch", "change").care("change", "Wed 09:00").all_else()
    said = drawn(story).sentences
    assert (said[0], said[-1]) == ("A full pouch: nobody at any hour.", MUST_KNOW)
    assert drawn(story.holds("topics")).sentences[0] == "A full pouch: somebody at every hour asked for."
    assert MUST_KNOW not in drawn(story).sentences


def test_person_and_helper_stand_apart_then_together():
    """He empties, she comes by day and changes: a leak at night is nobody's."""
    story = only("pouch").all_else(("leak-service",))
    story.helper("Hugo").comes("Hugo", BY_DAY).holds("pouch", "change", "topics", learner="Hugo")
    found = drawn(story)
    assert [row.who for row in found.rows] == ["Ada", "Hugo", TOGETHER] * 2
    assert [row.part for row in found.rows] == ["A full pouch", "", "", "A leak", "", ""]
    assert found.sentences == [
        "A full pouch. Ada: at every hour asked for. Hugo: not from Thu 14 May 20:00 to Fri 15 May 08:00, and 6 times "
        "more. Together: somebody at every hour asked for.",
        "A leak. Ada: at no hour. Hugo: not from Thu 14 May 20:00 to Fri 15 May 08:00, and 6 times more. "
        "Together: nobody from Thu 14 May 20:00 to Fri 15 May 08:00, and 6 times more.",
    ]
    apart = found.rows[4]
    assert all(bar.kind == "covered" for bar in apart.bars)
    assert {bar.kind for bar in found.rows[5].bars} == {"covered", "bare"}


def test_the_leak_service_is_one_of_them():
    found = drawn(only("pouch"))
    assert [row.who for row in found.rows] == ["A full pouch", "Ada", "A nurse for a leak", TOGETHER]


def test_a_helper_who_has_not_agreed_is_not_drawn():
    story = only("pouch").helper("Hugo").comes("Hugo", ALL_HOURS)
    story.chart = replace(story.chart, consents=())
    assert "Hugo" not in " ".join(drawn(story).sentences)


ACCEPTS = {"accepted_by": "Senna Holt", "name": "Larch House", **dict.fromkeys(
    ("is_nurse", "emptying", "leaks", "changes", "day_and_night"), True)}


def test_where_a_facility_has_accepted_nobody_is_said_to_be_missing():
    story = Going().care("change", "Wed 09:00").to("facility").all_else().arranged("facility", **ACCEPTS)
    found = drawn(story)
    assert found.rows == ()
    assert found.instead == "Senna Holt, Larch House: has accepted emptying, leaks and changes, day and night."


@pytest.mark.parametrize("told", [{}, {**ACCEPTS, "leaks": False}])
def test_where_it_has_not_accepted_all_of_it_that_is_said(told):
    story = Going().care("change", "Wed 09:00").to("facility").all_else()
    assert drawn(story.arranged("facility", **told) if told else story).instead == NOBODY_THERE
