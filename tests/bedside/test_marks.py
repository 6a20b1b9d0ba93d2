"""The marks of help: one drawing an answer, told apart without colour, named aloud."""

import re

import pytest

from teaching.rules.vocabulary import STORED_ANSWERS
from teaching.templatetags.marks import drawing, mark, mark_drawn, mark_sheet


@pytest.mark.parametrize("answer", STORED_ANSWERS)
def test_every_answer_that_may_be_stored_has_a_mark(answer):
    assert "<path" in drawing(answer)


def test_no_two_answers_look_the_same():
    drawn = [drawing(answer, practice) for answer in STORED_ANSWERS for practice in (False, True)]
    assert len(set(drawn)) == len(drawn)


def test_a_mark_says_its_code_and_words():
    assert "<title>06 Alone. You watched and said nothing</title>" in mark("06")
    assert "<title>04 You had to cue, or steady with a touching hand (practice:" in mark("04", True)


def test_a_mark_has_no_colour_of_its_own():
    for answer in STORED_ANSWERS:
        assert not re.findall(r"#[0-9a-fA-F]{3}|rgb|url", drawing(answer))


def test_a_page_defines_each_mark_once_and_refers_to_it():
    sheet = mark_sheet([("06", False), ("06", False), ("04", True)])
    assert re.findall(r'<symbol id="([^"]+)"', sheet) == ["mark-04-practice", "mark-06"]
    assert '<use href="#mark-06"/>' in mark("06")


def test_a_paper_gets_the_whole_drawing():
    assert "<use" not in mark_drawn("03")
    assert drawing("03") in mark_drawn("03")


def test_not_attempted_codes_are_dashed_and_levels_are_not():
    dashed = {answer for answer in STORED_ANSWERS if "dasharray" in drawing(answer)}
    assert dashed == {"07", "10", "88", "not_yet"}


def test_an_unknown_answer_has_no_mark():
    with pytest.raises(KeyError, match="09"):
        drawing("09")
