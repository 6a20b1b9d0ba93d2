"""What fit asks and says beyond the published checks: each axis, each way a flange is opened, history, supplies."""

from dataclasses import replace
from datetime import timedelta

import pytest
from story import Story, at

from teaching.rules.facts import Finding, Kit, Stoma
from teaching.rules.fit import (
    Supplies,
    opening_asks,
    opening_said,
    powder_asks,
    remeasure,
    sizes,
    supplies,
)
from teaching.rules.policy import DEFAULT
from teaching.rules.worn import Pouch, pouches

KIT = Kit("s", at("Mon 00:00"))
NOTHING = frozenset()


def asks(kit=KIT, states=NOTHING, **seen):
    found = opening_asks(Finding("s", at("Mon 10:00"), "e", **seen), kit, states, DEFAULT)
    return [(field, reason.code) for field, reason in found]


@pytest.mark.parametrize(
    ("seen", "asked"),
    [
        ({"width_mm": 32, "opening_width_mm": 33}, [("opening_width_mm", "opening-tight")]),
        ({"height_mm": 32, "opening_height_mm": 33}, [("opening_height_mm", "opening-tight")]),
        ({"width_mm": 32, "opening_width_mm": 36}, [("opening_width_mm", "opening-wide")]),
        ({"height_mm": 32, "opening_height_mm": 36}, [("opening_height_mm", "opening-wide")]),
        ({"width_mm": 32, "height_mm": 40, "opening_width_mm": 34.5, "opening_height_mm": 42.5}, []),
        ({"width_mm": 32, "height_mm": 40, "opening_width_mm": 42}, [("opening_width_mm", "opening-wide")]),
        ({"width_mm": 32, "opening_height_mm": 60}, []),
        ({"opening_width_mm": 60}, []),
    ],
)
def test_each_axis_is_asked_about_by_itself(seen, asked):
    assert asks(**seen) == asked


def test_not_for_mouldable_a_rod_or_a_gap():
    wide = {"width_mm": 32, "opening_width_mm": 50}
    assert asks(**wide)
    assert asks(replace(KIT, opening="mouldable"), **wide) == []
    assert asks(states=frozenset({"rod"}), **wide) == []
    assert asks(edge="gap", **wide) == []


@pytest.mark.parametrize(("comes", "asked"), [(33, "pre-cut-tight"), (34, ""), (35, ""), (36, "pre-cut-wide")])
def test_a_pre_cut_flange_is_asked_about_beside_the_size_in_other_words(comes, asked):
    kit = replace(KIT, opening="pre-cut", pre_cut_mm=comes)
    assert asks(kit, width_mm=32) == ([("width_mm", asked)] if asked else [])


def test_past_the_cutting_limit_even_round_a_rod():
    kit = replace(KIT, cut_limit_mm=45)
    assert asks(kit, opening_width_mm=45) == []
    assert asks(kit, frozenset({"rod"}), opening_width_mm=45.5) == [("opening_width_mm", "past-cutting-limit")]
    assert asks(kit, opening_height_mm=50) == [("opening_height_mm", "past-cutting-limit")]


@pytest.mark.parametrize(
    ("where", "skin", "used", "asked"),
    [
        ("feet", {"feet": "good"}, False, ["powder-on-good"]),
        ("feet", {"feet": "wet-raw", "head": "good"}, True, []),
        ("feet", {}, True, []),
        ("feet prescribed", {"feet": "good"}, True, []),
        ("feet gap", {"feet": "good"}, True, []),
        ("", {"feet": "good", "head": "good"}, True, ["powder-skin-good"]),
        ("", {"feet": "good", "head": "different"}, True, []),
        ("", {"feet": "good"}, False, []),
        ("", {}, True, []),
    ],
)
def test_powder_on_good_skin_is_asked_about(where, skin, used, asked):
    assert [reason.code for _, reason in powder_asks(where.split(), skin, used)] == asked


def test_what_is_said_of_the_opening():
    story = Story().finds("Mon 10:00", "e", "nurse", width_mm=32.0)
    (size,) = sizes(story.chart, "s", at("Mon 11:00"))
    assert opening_said(size, KIT, NOTHING, "", DEFAULT) is None  # measured on one axis only
    whole = replace(size, height_mm=32.0)
    for kit, states, edge, code in (
        (replace(KIT, opening="mouldable"), NOTHING, "", "moulded"),
        (replace(KIT, opening="pre-cut", pre_cut_mm=35), NOTHING, "", "comes-cut"),
        (KIT, frozenset({"rod"}), "", "round-tube"),
        (KIT, NOTHING, "gap", "round-tube"),
        (KIT, NOTHING, "", "cut-to"),
        (None, NOTHING, "", "cut-to"),
    ):
        assert opening_said(whole, kit, states, edge, DEFAULT).code == code


def test_sizes_are_told_in_order_and_measuring_again_is_due_from_the_last():
    story = Story().finds("Thu 10:00", "b", "nurse", width_mm=30.0).finds("Mon 10:00", "a", "nurse", width_mm=32.0)
    story.finds("Fri 10:00", "c", "nurse", colour="pink-red")
    now = at("Sat 10:00")
    assert [one.width_mm for one in sizes(story.chart, "s", now)] == [32.0, 30.0]
    stoma = Stoma("s", "stoma", "ileostomy", formed_at=at("Mon 00:00"))
    assert remeasure(story.chart, stoma, now, DEFAULT).due == at("Thu+1 10:00")
    assert remeasure(story.chart, stoma, at("Thu+1 10:00"), DEFAULT).reason.code == "measure-by"
    assert remeasure(story.chart, stoma, at("Thu+1 10:01"), DEFAULT).reason.code == "measure-now"
    assert remeasure(Story().chart, stoma, now, DEFAULT).reason.code == "measure-first"


@pytest.mark.parametrize(
    ("days", "hours", "changing", "expected"),
    [
        (12, 72, True, Supplies(4 + 3, 12, 3, False)),
        (13, 72, True, Supplies(5 + 3, 13, 3, False)),  # rounded up
        (28, 84, True, Supplies(8 + 3, 28, 3, False)),
        (29, 84, True, Supplies(8 + 3, 28, 3, True)),  # four weeks while the size changes
        (29, 84, False, Supplies(9 + 3, 29, 3, False)),
        (0, 72, True, Supplies(0 + 3, 0, 3, False)),
        (14, None, True, Supplies(5 + 3, 14, 3, False)),  # nobody has said how often: the shortest usual wear
        (None, 168, False, Supplies(2 + 3, 14, 3, False)),
    ],
)
def test_supplies_to_take_home(days, hours, changing, expected):
    assert supplies(days, replace(KIT, interval_hours=hours), changing, DEFAULT) == expected


def test_negative_days_are_refused():
    with pytest.raises(ValueError, match="cannot be negative"):
        supplies(-1, KIT, True, DEFAULT)


def test_pouches_one_after_the_other():
    story = Story().care("change", "Mon 10:00").care("change", "Wed 10:00", "leak")
    story.care("change", "Wed 20:00", "planned")
    assert pouches(story.chart, "s", at("Thu 10:00")) == (
        Pouch(at("Mon 10:00"), at("Wed 10:00"), "leak"),
        Pouch(at("Wed 10:00"), at("Wed 20:00"), "planned"),
        Pouch(at("Wed 20:00")),
    )
    assert pouches(Story().chart, "s", at("Thu 10:00")) == ()


def test_a_change_written_by_two_raters_is_one_pouch_and_a_leak_by_either_is_a_leak():
    story = Story().care("change", "Mon 10:00")
    story.shows("press", "06", "Tue 10:00", event="e").shows("press", "05", "Tue 10:05", event="e")
    story.finds("Tue 10:00", "e", "nurse", wear_end="planned")
    story.finds("Tue 10:05", "e", "nurse", wear_end="leak", leak_track="feet")
    first, last = pouches(story.chart, "s", at("Wed 10:00"))
    assert (first.ended, first.track, first.off) == ("leak", "feet", at("Tue 10:05"))
    assert last.on - first.on == timedelta(hours=24, minutes=5)
