"""docs/stay-file.md tells every key the reader knows; the examples it gives are read."""

import json
import re
from pathlib import Path

import pytest

from teaching.exchange.assessment import as_json
from teaching.exchange.checklist_rows import COLUMNS
from teaching.exchange.stay_fields import Fields
from teaching.exchange.stay_file import load_stay, read_stay
from teaching.rules.assess import assess

DOCS = Path(__file__).parents[2] / "docs"
TEXT = (DOCS / "stay-file.md").read_text(encoding="utf-8")
EXAMPLE = DOCS / "example-stay.json"


@pytest.fixture
def asked(monkeypatch):
    """{part of the file: the keys its reader asked for}, filled as files are read."""
    found = {}
    leave = Fields.__exit__

    def note(self, *trouble):
        found.setdefault(re.sub(r"\[\d+\]", "", self.path), set()).update(self.asked)
        return leave(self, *trouble)

    monkeypatch.setattr(Fields, "__exit__", note)
    return found


def told(text):
    return set(re.findall(r"`([a-z_-]+)`", text))


def test_every_key_is_documented(asked):
    load_stay(EXAMPLE)
    assert {"", "stomas", "kits", "learners", "consents", "sessions", "care", "rechecks", "findings"} <= set(
        asked
    )
    keys = {key for each in asked.values() for key in each}
    assert keys - told(TEXT) == set()


def test_the_example_uses_nearly_every_key(asked):
    """What one stay cannot hold at once stays out: a pre-cut size, a caution settled or withdrawn."""
    load_stay(EXAMPLE)
    data = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    for part in (
        "stomas",
        "kits",
        "learners",
        "consents",
        "care",
        "rechecks",
        "body_events",
        "findings",
        "totals",
    ):
        used = {key for each in data[part] for key in each} | {"about", "stoma", "event", "learner"}
        assert asked[part] - used - {"pre_cut_mm"} == set(), part
    used = {key for each in data["cautions"] for key in each} | {"about"}
    assert asked["cautions"] - used == {"list", "words", "settled", "withdrawn"}


def keys_of(value):
    """Every key of the objects in a JSON value, however deep."""
    if isinstance(value, dict):
        return set(value) | {key for each in value.values() for key in keys_of(each)}
    return {key for each in value for key in keys_of(each)} if isinstance(value, list) else set()


def test_every_key_that_comes_back_is_documented():
    found = load_stay(EXAMPLE)
    told_back = as_json(found.chart, assess(found.chart, found.policy, found.at))
    assert all(told_back[part] for part in ("cautions", "changes", "aims", "conclusions", "rows"))
    assert keys_of(told_back) - told(TEXT.split("## What comes back")[1]) == set()


def test_the_least_that_works_is_read():
    (least,) = re.findall(r"```json\n(.*?)```", TEXT, re.DOTALL)
    found = read_stay(json.loads(least)).chart
    assert {rating.code: rating.answer for rating in found.ratings} == {
        "em-when": "06",
        "em-open": "06",
        "em-wipe": "06",
        "em-close": "04",
        "em-hands": "06",
    }


def test_every_column_of_a_checklist_is_documented():
    assert set(COLUMNS) - told((DOCS / "checklist.md").read_text(encoding="utf-8")) == set()
