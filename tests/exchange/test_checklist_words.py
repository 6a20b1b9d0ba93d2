"""Each text of a row is true of every stoma and pouch that has the row; what may not be there is said with an "if"."""

import re

import pytest

from teaching.exchange.checklist_file import load_checklist
from teaching.rules.checklist import conditions

BOWEL = ("ileostomy", "colostomy", "drainable", "closed")
# A word, and what a stoma must have for it to mean anything there: one of these in each of the row's alternatives.
LEAN_ON = {
    r"urine|wick|urostomy|mucus|kidneys?|night bag|tap": ("urostomy",),
    r"stools?|wind|motion|slime|how thick|(?:is|parts) thick|thick (?:stool|parts)": BOWEL,
    r"ileostomy|tablets?|laxatives?|blockage": ("ileostomy", "colostomy"),
    r"stents?": ("stents",),
    r"rod": ("rod",),
    r"tubes?": ("rod", "stents", "kit:night-bag", "kit:large-bag"),
    r"click|locked|the ring|two-piece|one-piece": ("two-piece", "kit:seal"),
    r"drainage bag|bag is empty": ("kit:night-bag", "kit:large-bag"),
    r"scissors|template": ("cut",),
    r"clip": (),  # how a pouch is shut is no feature
    r"strip": ("kit:seal",),
}
TEXTS = ("title", "good", "ask_back", "watch_for")
ITEMS = load_checklist().items


def misfits(applies, text):
    """The words of a text that do not fit all of those who have a row with this condition."""
    clauses = [one for one in text.split(";") if not re.search(r"\bif\b", one)]
    return [
        found
        for words, needed in LEAN_ON.items()
        if not all(set(needed) & set(alternative) for alternative in applies)
        for clause in clauses
        for found in re.findall(rf"\b(?:{words})\b", clause, re.IGNORECASE)
    ]


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.code)
def test_no_row_says_what_does_not_fit_a_stoma_that_has_it(item):
    found = {name: misfits(item.applies, getattr(item, name)) for name in TEXTS}
    assert not any(found.values()), found


@pytest.mark.parametrize(
    ("applies", "text", "found"),
    [
        ("ileostomy or urostomy", "urostomy: the wick rests on the stoma, never inside it", ["urostomy", "wick"]),
        ("urostomy", "the wick rests on the stoma", []),
        ("rod or stents", "a stent out too soon with pain, or no urine: call", ["urine", "stent"]),
        ("drainable or urostomy", "strip not clean; tap half way", ["tap", "strip"]),
        ("closed", "stool caught under the ring", ["the ring"]),
        ("all", "A tablet comes out whole: what now?", ["tablet"]),
        ("all", "catching a stent, if there is one", []),
        ("all", "catching a stent; sore, if you look", ["stent"]),
        ("urostomy and kit:night-bag", "urine seen in the tube", []),
    ],
)
def test_the_sweep_finds_what_does_not_fit(applies, text, found):
    assert misfits(conditions(applies), text) == found
