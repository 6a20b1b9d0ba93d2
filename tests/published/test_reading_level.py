"""The measure of reading level, against two sentences whose figures are published beside the formulas."""

import pytest

from tests.papers.reading_level import counts, grade, reading_ease, syllables

PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."


def test_platypus():
    """13 words, 24 syllables, grade 11.3."""
    assert counts(PLATYPUS) == (1, 13, 24)
    assert round(grade(PLATYPUS), 1) == 11.3


def test_cat():
    """Reading ease 116: six words, six syllables, one sentence."""
    assert round(reading_ease("The cat sat on the mat.")) == 116


@pytest.mark.parametrize(("word", "count"), [
    ("the", 1), ("stoma", 2), ("ostomy", 3), ("urostomy", 4), ("pouch", 1), ("change", 1),
    ("little", 2), ("table", 2), ("skin", 1), ("belly", 2), ("nurse", 1), ("opened", 2), ("wanted", 2), ("dressed", 1),
    ("changes", 2), ("tissues", 2), ("time", 1), ("colour", 2),
])  # counted by ear; no source
def test_syllables(word, count):
    assert syllables(word) == count
