"""The chooser: from what a helper did to a level, and every answer it offers."""

import pytest

from teaching.rules.level_chooser import QUESTIONS, level_for
from teaching.rules.vocabulary import LEVEL_CODES


@pytest.mark.parametrize("effort", [-0.01, 1.01, 40])
def test_a_share_that_cannot_be_is_refused_in_a_sentence(effort):
    with pytest.raises(ValueError, match="from 0 to 1"):
        level_for(effort)


def test_hands_on_outweigh_words_and_two_helpers_outweigh_all():
    assert level_for(0.4, cue=True, set_up=True) == "03"
    assert level_for(cue=True, set_up=True) == "04"
    assert level_for(two_helpers=True) == "01"


def test_every_level_is_reached_and_no_answer_is_in_two_questions():
    answers = [said for question in QUESTIONS for said in question.answers]
    assert {said.level for said in answers} == set(LEVEL_CODES)
    assert len({said.words for said in answers}) == len(answers)


def test_nothing_is_asked_in_figures():
    for question in QUESTIONS:
        assert question.ask.endswith("?")
        assert not any(letter.isdigit() for said in question.answers for letter in question.ask + said.words)
