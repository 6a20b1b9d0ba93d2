"""Levels of help against CMS Section GG (six-level scale, public) and LOINC answer list LL4681-4."""

import pytest

from teaching.rules.vocabulary import (
    ANSWERS,
    LEVEL_CODES,
    LEVELS,
    NEVER_OFFERED,
    NOT_ATTEMPTED,
    STORED_ANSWERS,
    UNAIDED,
)

PUBLISHED = {
    "06": "LA9983-3",
    "05": "LA10073-7",
    "04": "LA28225-3",
    "03": "LA10055-4",
    "02": "LA11759-0",
    "01": "LA27665-1",
    "07": "LA10058-8",
    "09": "LA28226-1",
    "10": "LA28227-9",
    "88": "LA26735-3",
}


def test_six_levels_and_four_not_attempted_codes_with_their_answers():
    assert {answer.code: answer.loinc for answer in LEVELS + NOT_ATTEMPTED} == PUBLISHED


def test_06_is_independent_and_higher_is_more():
    assert max(LEVEL_CODES) == UNAIDED
    assert list(LEVEL_CODES) == sorted(LEVEL_CODES, reverse=True)


def test_exactly_half_is_02():
    """Named by neither 03 nor 02 in the scale; read as 02: common practice, no source."""
    assert "half of the work or more" in ANSWERS["02"].words
    assert "less than half" in ANSWERS["03"].words


def test_09_is_known_and_never_stored():
    assert NEVER_OFFERED == "09"
    assert "09" not in STORED_ANSWERS


def mod_10(body: str) -> int:
    """The mod 10 check digit with letters read as ord - 48, so that LA and LL codes have one too (from memory)."""
    total = 0
    for place, letter in enumerate(reversed(body)):
        value = ord(letter) - 48
        total += 2 * value - 9 * (value // 5) if place % 2 == 0 else value
    return -total % 10


@pytest.mark.parametrize("code", ["68477-9", "34895-3", "LL4681-4", *PUBLISHED.values()])
def test_check_digits(code):
    body, check = code.split("-")
    assert mod_10(body) == int(check)


@pytest.mark.parametrize("code", ["LA9983-4", "LA10037-7", "68477-8"])
def test_a_slip_is_caught(code):
    body, check = code.split("-")
    assert mod_10(body) != int(check)
