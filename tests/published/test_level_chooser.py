"""The chooser against the published six levels: CMS Section GG, LOINC answer list LL4681-4.

01 dependent: a helper does all of the effort, or two helpers are needed. 02 substantial: a helper does more than
half. 03 partial: a helper does less than half. 04 supervision or touching: cues, or a steadying or guarding touch.
05 set-up or clean-up: a helper only sets up or cleans up. 06 independent: no help. Exactly half is named by neither
02 nor 03: read as 02, common practice, no source.
"""

import pytest

from teaching.rules.level_chooser import QUESTIONS, level_for


@pytest.mark.parametrize(
    ("helped", "level"),
    [
        ({"effort": 0.4}, "03"),
        ({"effort": 0.6}, "02"),
        ({"effort": 1}, "01"),
        ({"two_helpers": True}, "01"),
        ({"effort": 0.2, "two_helpers": True}, "01"),
        ({"cue": True}, "04"),
        ({"set_up": True}, "05"),
        ({}, "06"),
        ({"effort": 0.49}, "03"),
        ({"effort": 0.51}, "02"),
        ({"effort": 0.99}, "02"),
        ({"effort": 0.01}, "03"),
    ],
    ids=str,
)
def test_the_published_definition_of_each_level(helped, level):
    assert level_for(**helped) == level


def test_exactly_half_is_02():
    assert level_for(0.5) == "02"


def test_the_answers_in_words_come_to_the_published_levels():
    said = {answer.words: answer.level for question in QUESTIONS for answer in question.answers}
    assert said == {
        "Two of us were needed": "01",
        "All of it": "01",
        "More than half": "02",
        "Half and half": "02",
        "Less than half": "03",
        "A word, a sign or a steadying touch": "04",
        "Only setting out before, or clearing up after": "05",
        "Nothing: I watched and said nothing": "06",
    }
