"""A result without a reason is a defect; a reason without words, or words without a reason, too."""

import ast
import re
import string
from datetime import datetime
from pathlib import Path

import pytest

from teaching.rules import reasons
from teaching.rules.reasons import WORDS, Reason, words

RULES = Path(reasons.__file__).parent
# Codes that are states of the stay: `assess` says the state itself.
BY_STATE = {"paused", "stopped", "left", "cancelled"}


def given():
    """Every `Reason("code", name=...)` written in the rules; a code chosen by a condition counts twice."""
    for path in RULES.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Reason":
                names = {keyword.arg for keyword in node.keywords}
                for part in ast.walk(node.args[0]):
                    if isinstance(part, ast.Constant) and isinstance(part.value, str):
                        yield part.value, names


GIVEN = sorted({(code, tuple(sorted(names))) for code, names in given()})


def parts_of(code):
    """(name of the slot, what it counts or "")."""
    return {(name, counts or "") for _, name, counts, _ in string.Formatter().parse(WORDS[code]) if name}


def slots(code):
    return {name for name, _ in parts_of(code)}


def example(code, count=2):
    """Numbers where something is counted, else a word."""
    return Reason(code, **{name: count if counts else "something" for name, counts in parts_of(code)})


@pytest.mark.parametrize(("code", "names"), GIVEN, ids=[code for code, _ in GIVEN])
def test_every_reason_has_words_and_gives_what_they_ask_for(code, names):
    assert slots(code) <= set(names)


def test_all_words_are_used():
    assert set(WORDS) == {code for code, _ in GIVEN} | BY_STATE


@pytest.mark.parametrize("code", WORDS)
def test_words_are_a_sentence(code):
    said = words(example(code))
    assert said.endswith(".") and "{" not in said and "!" not in said


@pytest.mark.parametrize("code", [code for code in WORDS if any(counts for _, counts in parts_of(code))])
def test_one_and_two_of_what_is_counted(code):
    one, two = words(example(code, 1)), words(example(code))
    for counts in (counts for _, counts in parts_of(code) if counts):
        assert f"1 {counts}" in one and f"1 {counts}s" not in one
        assert f"2 {counts}s" in two


@pytest.mark.parametrize("code", WORDS)
def test_no_number_stands_before_a_plural_that_would_stay_one(code):
    """A slot of its own before "hours" or "topics" would say "1 topics"."""
    fixed = ("plan-several",)  # said of two or more
    counted_alone = re.findall(r"\{(?!least|most|half)\w+\} (\w+s)\b", WORDS[code])
    assert not set(counted_alone) & {"hours", "days", "topics", "rows", "steps", "times", "changes"} or code in fixed


def test_a_moment_is_said_by_day_and_hour():
    said = words(Reason("out-of-date", at=datetime(2026, 5, 14, 8, 5)))
    assert said == "Last seen alone Thu 14 May 08:05: show it again."


def test_equal_by_code_and_parameters():
    assert Reason("declined") == Reason("declined") != Reason("not-started")
    assert Reason("while", state="delirium") != Reason("while", state="sedation")
