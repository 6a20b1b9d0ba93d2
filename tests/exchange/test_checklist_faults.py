"""Every fault of a checklist file is told by path, in a sentence with its mend."""

from copy import deepcopy

import pytest

from teaching.exchange.checklist_file import FIXTURE, faults, read_checklist
from teaching.exchange.wrong_file import WrongFile, load_json

WHOLE = load_json(FIXTURE)


def with_row(code, /, **columns):
    """Version 1 with columns of one row changed; None takes a column out."""
    data = deepcopy(WHOLE)
    row = next(row for row in data["rows"] if row["code"] == code)
    for name, value in columns.items():
        row[name] = value
        if value is None:
            del row[name]
    return data


ROW_FAULTS = [
    (
        "unknown procedure",
        "em-open",
        {"procedure": "emptyng"},
        "procedure: 'emptyng' is unknown; did you mean emptying?",
    ),
    ("unknown phase", "cut", {"phase": "fit"}, "phase: 'fit' is unknown; use one of: prepare,"),
    (
        "phase outside a change",
        "em-open",
        {"phase": "prepare"},
        "phase: only a pouch change has phases; leave it out.",
    ),
    ("no phase in a change", "cut", {"phase": None}, "phase: None is unknown"),
    ("unknown feature", "cut", {"applies": "all of them"}, "applies:"),
    (
        "unknown feature in essential",
        "em-note",
        {"essential": "ileostomy and mesured"},
        "did you mean measured?",
    ),
    ("applies to nobody", "cut", {"applies": "none"}, "applies: none means that nobody ever meets this row"),
    ("no condition", "cut", {"essential": None}, "essential: must say when"),
    ("missing text", "cut", {"good": {"en": " "}}, "good.en: the text is missing; write it."),
    ("text in no language", "cut", {"title": "Cut"}, "title: must be texts by language"),
    (
        "text in another language",
        "cut",
        {"title": {"en": "Cut", "xx": "Cut"}},
        "title.xx: is not among the file's languages",
    ),
    ("topic without its question", "t-call", {"ask_back": None}, "ask_back: must be texts by language"),
    (
        "unknown share",
        "cut",
        {"practice_share": "half"},
        "practice_share: 'half' is unknown; use one of: all, one of two, none.",
    ),
    ("no share", "cut", {"practice_share": None}, "practice_share: None is unknown"),
    (
        "share on a topic",
        "t-call",
        {"practice_share": "all"},
        "practice_share: a topic is explained in words",
    ),
    (
        "practice on looking",
        "look-skin",
        {"practice_share": "all"},
        "practice_share: nobody can look at their own skin",
    ),
    (
        "minimum not essential",
        "em-open",
        {"essential": "none"},
        "hard_minimum: a row of the hard minimum must be essential",
    ),
    ("decision not rated", "t-call", {"decision": True}, "decision: topics rows are not rated"),
    (
        "meeting as a must",
        "meet-look",
        {"essential": "all"},
        "essential: meeting the stoma is never asked as a must",
    ),
    ("flag in words", "cut", {"decision": "yes"}, "decision: must be true or false."),
    ("unknown event", "cut", {"reopened_by": ["rod-out"]}, "reopened_by: rod-out is not an event"),
    ("events not in a list", "cut", {"reopened_by": "opening"}, "reopened_by: must be a list of words."),
    ("continues itself", "cut", {"continues": "cut"}, "continues: a row cannot continue itself"),
    ("unknown column", "cut", {"share": "all"}, "share: is not a column; use one of:"),
    (
        "source of no class",
        "cut",
        {"sources": {"good": "somebody"}},
        "sources.good: must begin with P, M, C or D",
    ),
    ("source of no text", "t-call", {"sources": {"good": "C"}}, "sources.good: is not a text of this row"),
    ("position in words", "cut", {"position": "first"}, "position: must be a whole number from 1 up"),
    ("code in capitals", "cut", {"code": "Cut"}, "code: must be a short name in small letters and hyphens"),
]


@pytest.mark.parametrize(("name", "row", "columns", "sentence"), ROW_FAULTS)
def test_a_fault_in_one_row(name, row, columns, sentence):
    found = faults(with_row(row, **columns))
    index = [one["code"] for one in WHOLE["rows"]].index(row)
    assert any(
        fault.startswith(f"rows[{index}] ({columns.get('code', row)}).") and sentence in fault
        for fault in found
    ), found


BETWEEN = [
    ("duplicate code", "mould", {"code": "cut"}, "rows (cut): the code stands 2 times"),
    (
        "position clash",
        "mould",
        {"position": 2170},
        "rows (cut, mould): all stand at position 2170; give each its own.",
    ),
    (
        "lends to nobody",
        "shut-first",
        {"lends_to": ["closed"]},
        "rows (shut-first).lends_to: closed is not a row of this file; did you mean close?",
    ),
    (
        "lends to itself",
        "close",
        {"lends_to": ["close"]},
        "rows (close).lends_to: a row cannot lend to itself",
    ),
    (
        "a group of one",
        "cut",
        {"evidence_group": "cutting"},
        "rows (cut).evidence_group: cutting has no other row",
    ),
    (
        "continues a row that stands",
        "cut",
        {"continues": "mould"},
        "rows (cut).continues: mould still stands in this file",
    ),
    (
        "phases out of order",
        "cut",
        {"position": 2005},
        "rows (prep-time).phase: prepare comes after fit-protect (cut) has begun",
    ),
]


@pytest.mark.parametrize(("name", "row", "columns", "sentence"), BETWEEN)
def test_a_fault_between_rows(name, row, columns, sentence):
    found = faults(with_row(row, **columns))
    assert any(fault.startswith(sentence) for fault in found), found


HEAD = [
    ("format", "a list", 'format: must be "ostomy-teach checklist".'),
    ("code", "Stoma Care", "code: must be a short name"),
    ("number", 0, "number: must be a whole number from 1 up"),
    ("number", True, "number: must be a whole number from 1 up"),
    ("languages", [], "languages: must list at least one language code"),
    ("languages", ["en", "en"], "languages: names a language twice"),
    ("title", {}, "title.en: the text is missing"),
    ("rows", [], "rows: must be a list with at least one row."),
    ("rows", ["cut"], "rows[0]: must be an object"),
    ("owner", "me", "owner: is not a key of a checklist"),
]


@pytest.mark.parametrize(("key", "value", "sentence"), HEAD)
def test_a_fault_in_the_head(key, value, sentence):
    found = faults({**deepcopy(WHOLE), key: value})
    assert any(fault.startswith(sentence) for fault in found), found


def test_a_new_language_asks_for_every_text():
    found = faults({**deepcopy(WHOLE), "languages": ["en", "cy"]})
    texts = sum(name in row for row in WHOLE["rows"] for name in ("title", "good", "ask_back", "watch_for"))
    assert len(found) == texts + 1 and all(".cy: the text is missing; write it." in fault for fault in found)


def test_all_faults_are_told_at_once():
    data = with_row("cut", phase="fit", applies="cutt", good=None)
    data["number"] = -1
    assert len(faults(data)) == 4


@pytest.mark.parametrize("data", [[], "text", None, {}, {"rows": [1, None]}, {"rows": {}, "languages": "en"}])
def test_no_shape_of_file_breaks_the_reader(data):
    with pytest.raises(WrongFile):
        read_checklist(data)


def test_every_column_may_hold_any_json():
    for value in (None, 1, "x", [], [1], {}, {"en": 1}, True):
        for name in {column for row in WHOLE["rows"] for column in row}:
            data = deepcopy(WHOLE)
            data["rows"][0][name] = value
            assert isinstance(faults(data), list)


def test_a_language_that_is_not_there_is_refused():
    with pytest.raises(WrongFile, match="languages: cy is not among en"):
        read_checklist(WHOLE, "cy")
