"""The policy is the whole of the figures: each one used, none beside it, nonsense refused in sentences."""

import ast
import re
from datetime import timedelta
from pathlib import Path

import pytest

from teaching.rules import policy as the_policy
from teaching.rules.checklist import FEATURES, conditions
from teaching.rules.lines import CLASSES, SIDES
from teaching.rules.policy import DEFAULT, PolicyRefused
from teaching.rules.vocabulary import CAUTION_LISTS

RULES = Path(the_policy.__file__).parent
NOT_JUDGEMENTS = {
    "policy.py", "lines.py", "vocabulary.py", "ward.py", "board.py", "huddle.py",
    "readiness_said.py",  # how many steps a sentence names
    "level_chooser.py",  # the half of a published scale, which no hospital sets
}  # fmt: skip
VIEWS = sorted(RULES.parent.glob("*/*views.py"))
JUDGEMENTS = sorted(path for path in RULES.glob("*.py") if path.name not in NOT_JUDGEMENTS)
ONE_OF_ANYTHING = (0, 1)  # "none", "one", "the first", "an hour of"


@pytest.mark.parametrize("path", JUDGEMENTS, ids=lambda path: path.name)
def test_every_number_the_rules_use_is_a_line_of_the_policy(path):
    numbers = [
        (node.lineno, node.value)
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and type(node.value) in (int, float) and node.value not in ONE_OF_ANYTHING
    ]
    assert not numbers, f"{path.name}: write these as lines of the policy: {numbers}"


@pytest.mark.parametrize("line", DEFAULT.lines, ids=lambda line: line.name)
def test_every_line_is_used(line):
    """By a rule, or by whoever hands its figure to an analysis."""
    used = "\n".join(path.read_text(encoding="utf-8") for path in (*JUDGEMENTS, *VIEWS))
    assert re.search(rf"policy\.{line.name}\b", used)


@pytest.mark.parametrize("line", DEFAULT.lines, ids=lambda line: line.name)
def test_every_line_says_why_its_source_and_its_side(line):
    assert line.why and line.source and line.class_ in CLASSES and line.side in SIDES
    assert line.least <= line.value <= line.most
    assert ("no source" in line.source) == (line.class_ == "C")
    assert getattr(DEFAULT, line.name) == DEFAULT[line.name] == line.amount


@pytest.mark.parametrize("sign", DEFAULT.signs, ids=lambda sign: sign.code)
def test_every_sign_says_its_list_how_it_is_asked_for_whom_and_why(sign):
    assert sign.list in CAUTION_LISTS and sign.asked in ("finding", "output", "wear", "tap")
    assert sign.why and sign.source and sign.class_ in CLASSES
    assert {word for words in conditions(sign.applies) for word in words} <= FEATURES
    assert "{" not in DEFAULT.words(sign)


def test_names_are_given_once():
    names = [line.name for line in DEFAULT.lines] + [sign.code for sign in DEFAULT.signs]
    assert len(names) == len(set(names))


def test_local_values_make_another_version_and_equal_ones_the_same():
    local = DEFAULT.with_overrides({"spacing": 6, "emptying_date": "36 hours", "sign:gap": "call_now"})
    assert (local.spacing, local.emptying_date, local.sign["gap"].list) == (
        timedelta(hours=6), timedelta(hours=36), "call_now",
    )  # fmt: skip
    assert local.version != DEFAULT.version
    assert DEFAULT.with_overrides({"spacing": 4}).version == DEFAULT.version
    assert DEFAULT.spacing == timedelta(hours=4)


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("spaceing", 6, "is not a line of the policy"),
        ("emptying_streak", 3, "from 1 to 2 showings; 3 is not"),
        ("change_streak", 0, "from 1 to 2 showings; 0 is not"),
        ("emptying_date", "2 days", "is in hours"),
        ("topic_wait", 2.5, "whole number of hours"),
        ("change_date", True, "whole number of days"),
        ("output_now", "many mL", "whole number of mL"),
        ("spacing", -4, "from 1 to 24 hours"),
        ("sign:gp", "off", "is not a sign of the policy"),
        ("sign:gap", "later", "must be call_now, today or off"),
        ("output_today", 2500, "below output_today"),
        ("interval_least", 6, "below interval_least"),
    ],
)
def test_nonsense_is_refused_in_a_sentence(name, value, said):
    with pytest.raises(PolicyRefused) as refused:
        DEFAULT.with_overrides({name: value})
    ((_, sentence),) = refused.value.faults
    assert said in sentence and sentence.endswith(".")


def test_every_fault_is_told_at_once_and_nothing_taken_over():
    with pytest.raises(PolicyRefused) as refused:
        DEFAULT.with_overrides({"spacing": 6, "spaceing": 6, "emptying_streak": 3})
    assert [name for name, _ in refused.value.faults] == ["spaceing", "emptying_streak"]


def test_the_most_room_is_never_less_than_the_least():
    with pytest.raises(PolicyRefused, match="opening_most: is below opening_least"):
        DEFAULT.with_overrides({"opening_least": 3, "opening_most": 2})
