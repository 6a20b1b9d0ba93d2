"""Which rows apply: conditions as text, features of a stoma in its kit, rows and what they are."""

import pytest
from story import CHECKLIST, Story, at

from teaching.rules.checklist import applicable, conditions, features, holds, kit_at
from teaching.rules.facts import Kit, Stoma

NOW = at("Mon 12:00")


def codes(story, when=NOW, **which):
    rows = applicable(story.chart, "s", when)
    return {row.code for row in rows if all(getattr(row, name) == value for name, value in which.items())}


@pytest.mark.parametrize(
    ("text", "parsed"),
    [
        ("all", ((),)),
        ("none", ()),
        ("drainable", (("drainable",),)),
        ("drainable or urostomy and rod", (("drainable",), ("urostomy", "rod"))),
        ("ileostomy  and measured", (("ileostomy", "measured"),)),
    ],
)
def test_conditions(text, parsed):
    assert conditions(text) == parsed


@pytest.mark.parametrize("text", ["", "or", "rod or", "and rod", "rod stents", "all or rod", "none and rod"])
def test_an_unclear_condition_is_refused_in_a_sentence(text):
    with pytest.raises(ValueError, match=r"is not clear; write .*\."):
        conditions(text)


def test_and_binds_before_or():
    when = conditions("drainable or urostomy and rod")
    assert holds(when, frozenset({"drainable"})) and holds(when, frozenset({"urostomy", "rod"}))
    assert not holds(when, frozenset({"urostomy"})) and not holds(when, frozenset({"rod"}))


@pytest.mark.parametrize(
    ("kind", "closure", "has", "has_not"),
    [
        ("ileostomy", "drainable", {"ileostomy", "drainable"}, {"closed", "urostomy"}),
        ("colostomy", "closed", {"colostomy", "closed"}, {"drainable"}),
        ("urostomy", "drainable", {"urostomy"}, {"drainable", "closed"}),
        ("wet-colostomy", "drainable", {"urostomy", "colostomy"}, {"drainable", "closed", "wet-colostomy"}),
    ],
)
def test_features(kind, closure, has, has_not):
    kit = Kit("s", NOW, pieces="one", opening="mouldable", closure=closure, items=frozenset({"powder"}))
    found = features(Stoma("s", "", kind), kit, frozenset({"rod", "delirium"}))
    assert has | {"one-piece", "mouldable", "kit:powder", "rod"} <= found
    assert not found & (has_not | {"delirium", "two-piece", "cut"})


def test_without_a_written_kit_nothing_of_the_pouch_is_asked():
    found = {row.code for row in applicable(Story().stoma("t", "ileostomy").chart, "t", at("Mon 00:00"))}
    assert "em-open" in found
    bare = Story("colostomy")
    before_any_kit = bare.chart.kits[0].since.replace(year=2020)
    assert not {code for code in codes(bare, before_any_kit) if code.startswith(("em-", "cl-"))}


def test_the_newest_kit_in_force_decides_and_a_future_one_not_yet():
    story = Story(closure="drainable").new_kit("Mon 13:00", closure="closed")
    assert "em-open" in codes(story) and "cl-on" in codes(story, at("Mon 13:00"))
    assert kit_at(story.chart, "s", NOW).closure == "drainable"


def test_rows_come_in_the_order_of_teaching():
    rows = [row.item.position for row in applicable(Story().chart, "s", NOW)]
    assert rows == sorted(rows)


def test_rated_are_essential_rows_and_decisions_the_rest_are_prompts():
    story = Story(items=frozenset({"remover"}))
    assert "off-remover" in codes(story, rated=True, essential=False)
    assert {"meet-look", "prep-time", "em-place"} <= codes(story, rated=False)
    assert "em-open" in codes(story, rated=True, essential=True)


def test_measured_output_makes_noting_it_essential_only_for_an_ileostomy():
    assert "em-note" in codes(Story(), rated=False)
    assert "em-note" in codes(Story().state("measured", "Mon 00:00"), essential=True)
    assert "em-note" in codes(Story("colostomy").state("measured", "Mon 00:00"), rated=False)


def test_a_state_begins_and_ends_with_its_rows():
    story = Story().state("rod", "Mon 10:00", "Mon 14:00")
    shown = ["look-tubes" in codes(story, at(when)) for when in ("Mon 09:59", "Mon 10:00", "Mon 13:59", "Mon 14:00")]
    assert shown == [False, True, True, False]


def test_who_lends_to_whom_in_the_products_own_checklist():
    lenders = {code: {item.code for item in items} for code, items in CHECKLIST.lenders.items()}
    assert lenders["close"] == {"em-close", "ue-shut", "shut-first"}
    assert "shut-first" not in lenders and "shut-first" not in lenders["em-close"]
