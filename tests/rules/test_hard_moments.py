"""Hard moments: each with advice, its class and source; never a diagnosis."""

import re

import pytest

from teaching.rules.hard_moments import HARD_MOMENTS, hard_moments
from teaching.rules.lines import CLASSES
from teaching.rules.vocabulary import PROCEDURES

# Words by which a sentence would name an illness or grade a complication instead of saying what to do.
DIAGNOSES = r"dermatitis|infect|necro|ischaem|prolaps|hernia|depress|syncope|allerg|ulcer|grade \d"


def test_the_five_moments_of_the_plan():
    assert [moment.code for moment in HARD_MOMENTS] == ["wont-look", "cries", "helper-faints", "spurts", "wont-stick"]


@pytest.mark.parametrize("moment", HARD_MOMENTS, ids=lambda moment: moment.code)
def test_short_calm_sentences_with_their_class_and_no_diagnosis(moment):
    assert moment.class_ in CLASSES and moment.source
    assert moment.procedures <= set(PROCEDURES)
    assert 2 <= len(moment.do) <= 5
    for sentence in moment.do:
        assert sentence[-1] in ".?" or sentence.endswith('."')
        assert "!" not in sentence and len(sentence) < 110
        assert not re.search(DIAGNOSES, sentence, re.I)


def test_class_c_says_that_there_is_no_source():
    assert all("no source" in moment.source for moment in HARD_MOMENTS if moment.class_ == "C")


def test_never_tape_over_a_leak():
    """MedlinePlus, Wound Care Advisor: a leak means a change at once, never tape."""
    (stick,) = [moment for moment in HARD_MOMENTS if moment.code == "wont-stick"]
    assert "start again with a new one" in stick.do[0]


def test_each_is_shown_where_it_comes_up():
    assert [one.code for one in hard_moments(frozenset({"meeting"}))] == ["wont-look", "cries", "helper-faints"]
    assert len(hard_moments(frozenset({"change"}))) == len(HARD_MOMENTS)
    assert hard_moments(frozenset({"night"})) == ()
