"""Which signs the record shows, in what order cautions stand, and that none is settled before it was told.

Dark, dry and bleeding: Royal Marsden Manual; NHS Northern Care Alliance leaflet. Output: Baker 2011, Arenas
Villafranca 2015, the default a local setting. The others: common practice, no source.
"""

from dataclasses import replace
from datetime import timedelta

import pytest
from story import Story, at

from teaching.rules.cautions import (
    running,
    settling_faults,
    signs_of_total,
    signs_of_wear,
    signs_seen,
    wear_ends,
)
from teaching.rules.facts import Caution, Finding, OutputTotal
from teaching.rules.policy import DEFAULT

NORMAL = Finding("s", at("Mon 10:00"), "e", colour="pink-red", wet="wet", edge="joined", stands="well",
                 skin=(("head", "good"), ("feet", "good")), bleeding="spot")  # fmt: skip


def test_a_normal_finding_raises_nothing():
    assert signs_seen(NORMAL, DEFAULT) == []
    assert signs_seen(Finding("s", at("Mon 10:00"), "e"), DEFAULT) == []


@pytest.mark.parametrize(
    ("seen", "sign", "on"),
    [
        ({"colour": "dusky"}, "dark-stoma", "call_now"),
        ({"colour": "dark"}, "dark-stoma", "call_now"),
        ({"colour": "pale"}, "dark-stoma", "call_now"),
        ({"wet": "dry"}, "dry-stoma", "call_now"),
        ({"bleeding": "inside"}, "bleeding", "call_now"),
        ({"bleeding": "not-stopping"}, "bleeding", "call_now"),
        ({"skin": (("feet", "wet-raw"),)}, "sore-skin", "today"),
        ({"skin": (("feet", "spots"),)}, "sore-skin", "today"),
        ({"edge": "gap"}, "gap", "today"),
        ({"stands": "longer"}, "longer", "today"),
        ({"stands": "sunk"}, "sunk", "today"),
    ],
)
def test_what_is_seen_raises_its_sign(seen, sign, on):
    assert signs_seen(replace(NORMAL, **seen), DEFAULT) == [sign]
    assert DEFAULT.sign[sign].list == on


def test_skin_that_is_only_different_is_looked_at_not_called_about():
    assert signs_seen(replace(NORMAL, skin=(("feet", "different"),)), DEFAULT) == []


def test_a_sign_switched_off_locally_is_not_raised():
    assert signs_seen(replace(NORMAL, edge="gap"), DEFAULT.with_overrides({"sign:gap": "off"})) == []


@pytest.mark.parametrize(
    ("ml", "signs"), [(1499, []), (1500, ["output-today"]), (1999, ["output-today"]), (2000, ["output-now"])]
)
def test_an_output_total_at_its_bounds(ml, signs):
    total = OutputTotal("s", at("Mon 07:00"), ml)
    assert signs_of_total(total, Story("ileostomy").chart, DEFAULT) == signs
    assert signs_of_total(total, Story("urostomy").chart, DEFAULT) == []


def test_two_leaks_within_a_day_and_not_a_minute_longer():
    def leaks(first, second):
        story = Story().care("change", first, wear_end="leak").care("change", second, wear_end="leak")
        return signs_of_wear(story.chart, "s", DEFAULT, at(second))

    assert leaks("Mon 10:00", "Tue 10:00") == ["two-leaks"]
    assert leaks("Mon 09:59", "Tue 10:00") == []


def test_one_leak_written_by_two_raters_is_one_leak():
    story = Story().finds("Mon 10:00", "e", "nurse", wear_end="leak")
    story.finds("Mon 10:10", "e", "nurse", wear_end="leak").finds("Mon 10:20", "e", "nurse", wear_end="planned")
    assert signs_of_wear(story.chart, "s", DEFAULT, at("Mon 11:00")) == []
    assert wear_ends(story.chart, "s", at("Mon 11:00")) == [(at("Mon 10:00"), "leak")]


def caution(key, on, when, **steps):
    return Caution(key, key, on, key, at(when), **{name: at(moment) for name, moment in steps.items()})


def test_open_call_now_comes_first_then_open_then_told():
    cautions = (
        caution("told now", "call_now", "Mon 06:00", told="Mon 07:00"),
        caution("open today", "today", "Mon 08:00"),
        caution("open now", "call_now", "Mon 09:00"),
        caution("told today", "today", "Mon 05:00", told="Mon 06:00"),
        caution("settled", "call_now", "Mon 04:00", told="Mon 05:00", settled="Mon 06:00"),
        replace(caution("withdrawn", "call_now", "Mon 04:00"), withdrawn=True),
        caution("not yet", "call_now", "Tue 04:00"),
    )
    chart = replace(Story().chart, cautions=cautions)
    assert [one.key for one in running(chart, at("Mon 12:00"))] == [
        "open now", "open today", "told now", "told today",
    ]  # fmt: skip


def test_settled_only_after_told():
    open_one = caution("c", "today", "Mon 10:00")
    assert [fault.code for fault in settling_faults(open_one, at("Mon 12:00"))] == ["tell-first"]
    told = replace(open_one, told=at("Mon 11:00"))
    assert [fault.code for fault in settling_faults(told, at("Mon 10:59"))] == ["settled-early"]
    assert settling_faults(told, at("Mon 11:00")) == ()


@pytest.mark.parametrize("told", [None, "Mon 13:00"])
def test_one_settled_without_having_been_told_still_runs(told):
    wrong = replace(caution("c", "today", "Mon 10:00", settled="Mon 12:00"), told=told and at(told))
    assert running(replace(Story().chart, cautions=(wrong,)), at("Mon 14:00")) == (wrong,)


def test_it_runs_until_the_moment_it_is_settled():
    one = caution("c", "today", "Mon 10:00", told="Mon 11:00", settled="Mon 12:00")
    chart = replace(Story().chart, cautions=(one,))
    assert running(chart, at("Mon 12:00") - timedelta(seconds=1)) == (one,)
    assert running(chart, at("Mon 12:00")) == ()
