"""R7 to R10: what must be in place, at home or in a facility, and what caps a result; each bound from both sides."""

from dataclasses import replace
from datetime import timedelta

import pytest
from going_home import FLUID_PLAN, all_held, only
from story import at
from test_readiness_stories import FACILITY, mr_u

from teaching.rules.standing import TICK

SELF, NURSING, NOT_YET = "self-caring", "with nursing care arranged", "not yet"


def codes(story, now="Wed 18:00"):
    """Codes of the arrangements or signs proved wanting."""
    return [gap.code for gap in story.ready(now).gaps]


# R7: what must be in place


@pytest.mark.parametrize("code", ["supplies", "number", "first-contact", "sheet"])
def test_r7_each_blocking_arrangement_not_recorded_is_a_proved_gap(code):
    assert codes(all_held()) == []
    story = all_held().all_else((code,))
    assert codes(story) == [code] and story.result() == NOT_YET
    (way,) = story.ready().gaps[0].ways
    assert way.by == at("Thu 12:00") and way.who in ("planner", "ward-nurse")


@pytest.mark.parametrize("state", ["asked", "refused", "cancelled"])
def test_r7_asked_for_is_not_yet_made(state):
    story = all_held().arranged("number", "Tue 00:00", state=state)
    assert codes(story) == ["number"]
    assert codes(story.arranged("number", "Tue 01:00", phone="000", day_and_night=True)) == []


@pytest.mark.parametrize(
    ("details", "wanting"),
    [
        ({"phone": "000", "day_and_night": True}, False),
        ({"phone": "000", "day_and_night": False}, True),
        ({"phone": " ", "day_and_night": True}, True),
        ({}, True),
    ],
)
def test_r7_a_needed_detail_unsaid_is_a_gap(details, wanting):
    assert bool(codes(all_held().all_else(("number",)).arranged("number", **details))) == wanting


@pytest.mark.parametrize(
    ("hours", "result"), [(0, SELF), (72, SELF), (72.1, NOT_YET), (-0.1, NOT_YET)]
)
def test_r7_first_contact_within_72_hours(hours, result):
    assert all_held().all_else(contact=timedelta(hours=hours)).result() == result


@pytest.mark.parametrize(("visit", "result"), [("Sun 12:00", SELF), ("Sun 12:01", NOT_YET), ("Thu 12:00", SELF)])
def test_r7_a_nurse_who_comes_within_72_hours_is_a_first_contact(visit, result):
    assert all_held().all_else(("first-contact",)).visit(visit, for_change=False).result() == result


@pytest.mark.parametrize(("days", "without"), [(14, 0), (15, 1), (20, 6)])
def test_r7_kit_lasts_until_the_first_delivery(days, without):
    found = all_held().all_else(delivery=timedelta(days=days)).ready()
    assert [gap.reason.parameters["days"] for gap in found.gaps] == ([without] if without else [])
    assert found.result == (NOT_YET if without else SELF)


@pytest.mark.parametrize(("ml", "result"), [(1499, SELF), (1500, NOT_YET), (1501, NOT_YET)])
def test_r7_a_fluid_plan_from_1500_ml_on(ml, result):
    assert all_held().total("Tue 07:00", ml).result() == result


def test_r7_any_total_of_the_stay_counts_and_none_of_a_urostomy():
    assert all_held().total("Mon 07:00", 1900).total("Wed 07:00", 400).result() == NOT_YET
    assert all_held("urostomy", outlet="tap").total("Wed 07:00", 2400).result() == SELF


@pytest.mark.parametrize("part", FLUID_PLAN)
def test_r7_every_part_of_the_fluid_plan_is_needed(part):
    told = {name: said for name, said in FLUID_PLAN.items() if name != part}
    assert codes(all_held().total("Tue 07:00", 1500).arranged("fluid-plan", **told)) == ["fluid-plan"]
    assert codes(all_held().total("Tue 07:00", 1500).arranged("fluid-plan", **FLUID_PLAN)) == []


@pytest.mark.parametrize(("tube", "code"), [("rod", "rod-out"), ("stents", "stents-out")])
def test_r7_a_rod_or_stent_has_a_date(tube, code):
    kind = "urostomy" if tube == "stents" else "ileostomy"
    story = all_held(kind, **({"outlet": "tap"} if tube == "stents" else {})).state(tube, "Mon 00:00")
    assert code in codes(story) and code in codes(story.arranged(code))
    assert code not in codes(story.arranged(code, "Tue 00:00", due="Tue+1 09:00"))


def test_r7_all_else_is_a_list_beside_the_result():
    found = all_held().ready()
    assert found.result == SELF and {"pharmacist", "follow-up"} <= {one.kind.code for one in found.to_do}
    done = all_held().arranged("pharmacist").ready()
    assert "pharmacist" not in {one.kind.code for one in done.to_do} and done.result == SELF


# R8: a facility


def test_r8_a_facility_takes_the_place_of_number_contact_rows_topics_and_the_48_hours():
    assert mr_u().result("Wed 18:00") == NURSING
    assert mr_u().leaving("Sat 12:00").result("Sat 11:00") == NURSING  # nothing signed since Wednesday


@pytest.mark.parametrize("part", FACILITY)
def test_r8_a_named_nurse_accepts_each_part_of_it(part):
    assert codes(mr_u({name: said for name, said in FACILITY.items() if name != part})) == ["facility"]


def test_r8_kit_size_sheet_cautions_and_the_date_of_a_tube_stay():
    bare = mr_u()
    for code in ("supplies", "sheet"):
        story = mr_u()
        kept = tuple(one for one in story.chart.arrangements if one.code != code)
        story.chart = replace(story.chart, arrangements=kept)
        assert codes(story) == [code]
    unsized = mr_u()
    unsized.chart = replace(unsized.chart, findings=())
    assert codes(unsized) == ["size"]
    assert codes(mr_u().caution("dark-stoma", "Wed 12:00", told="Wed 12:05")) == ["dark-stoma"]
    assert codes(bare.state("rod", "Mon 00:00")) == ["rod-out"]


def test_r8_going_home_is_not_covered_by_a_facility():
    assert mr_u().to("home").result() == NOT_YET


# R9, R10: caps


def test_r9_a_call_now_caution_open_or_told_is_not_yet():
    assert codes(all_held().caution("dark-stoma", "Wed 12:00")) == ["dark-stoma"]
    told = all_held().caution("dark-stoma", "Wed 12:00", told="Wed 12:10")
    assert told.result() == NOT_YET and told.ready().gaps[0].reason.code == "caution-told"
    assert all_held().caution("dark-stoma", "Wed 12:00", "Wed 12:10", "Wed 13:00").result() == SELF
    assert all_held().caution("sore-skin", "Wed 12:00").result() == SELF  # today's list caps nothing by itself


def test_r10_a_caution_settled_without_being_told_still_blocks():
    assert all_held().caution("dark-stoma", "Wed 12:00", settled="Wed 13:00").result() == NOT_YET
    assert all_held().caution("dark-stoma", "Wed 12:00", "Wed 13:00", "Wed 12:30").result() == NOT_YET


def leaked(at_time, now, visit=None):
    """Changed Wednesday 09:00, then a leak; the next change is due three days after it."""
    story = all_held().leaving("Fri 12:00").care("change", at_time, "leak")
    story.shows(story.rows("pouch"), "06", "Thu 20:00")
    if visit:
        story.visit(visit)
    return story.result(now)


@pytest.mark.parametrize(
    ("leak", "now", "visit", "result"),
    [
        ("Thu 08:59", "Fri 08:00", None, NOT_YET),
        ("Thu 09:00", "Fri 08:00", None, SELF),  # it had held a day
        ("Thu 08:59", "Fri 08:00", "Sat 08:59", NURSING),
        ("Thu 08:59", "Fri 08:00", "Sat 09:00", NOT_YET),  # less than a day before it is due
        ("Thu 08:59", "Fri 08:58", None, NOT_YET),
        ("Thu 08:59", "Fri 08:59", None, SELF),  # the one now on has held a day
    ],
)
def test_r9_an_early_leak_needs_a_nurse_until_a_pouch_has_held_a_day(leak, now, visit, result):
    assert leaked(leak, now, visit) == result


def test_r9_a_planned_change_soon_after_does_not_lift_it():
    story = all_held().leaving("Sat 12:00").care("change", "Thu 05:00", "leak").care("change", "Thu 18:00", "planned")
    story.shows(story.rows("pouch"), "06", "Thu 20:00")
    assert story.result("Fri 17:00") == NOT_YET
    assert story.result("Fri 18:00") == SELF


# How long it holds


@pytest.mark.parametrize(
    ("story", "now"),
    [
        (all_held(), "Wed 18:00"),
        (all_held().leaving("Sat 12:00"), "Fri 09:00"),
        (all_held().leaving("Sat 12:00").care("change", "Thu 05:00", "leak"), "Thu 12:00"),
        (all_held(interval_hours=24), "Thu 10:30"),
        (all_held(interval_hours=24).leaving("Thu 11:30"), "Thu 10:30"),  # overdue, and leaving past the full hour
        (all_held(interval_hours=24).leaving("Thu 11:30"), "Thu 11:00"),
        (only("pouch"), "Wed 18:00"),
    ],
)
def test_the_answer_holds_until_it_says(story, now):
    first = story.ready(now)
    assert first.holds_until is not None and first.holds_until > at(now)
    later = story.ready(first.holds_until - TICK)
    assert replace(later, at=first.at) == first
