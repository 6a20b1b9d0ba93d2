"""The stories of people going home, judged by the rules. All are invented.

Each row: the story, the moment it is judged at, the result, and the parts proved bare where it is "not yet".
"""

import pytest
from going_home import ALL_HOURS, BY_DAY, FLUID_PLAN, Going, all_held, only, week
from story import OTHER_NURSE, SIGNED_OFF, STOMA_NURSE, WARD_NURSE, at

HOME = ("self-caring", "with a named helper", "with nursing care arranged")
SELF, HELPER, NURSING = HOME
NOT_YET, CANNOT_SAY = "not yet", "cannot say"
FACILITY = {
    "accepted_by": "Nurse There", "is_nurse": True, "emptying": True, "leaks": True, "changes": True,
    "day_and_night": True,
}


def mrs_a():
    """1. End colostomy, one-piece drainable, day 6."""
    return all_held("colostomy", pieces="one").visit("Fri 09:00")


def mr_b(changes_by=STOMA_NURSE):
    """2. Loop ileostomy; both closings seen by unsigned ward nurses, the changes by the stoma nurse or not."""
    story = Going().holds("pouch", by=WARD_NURSE).holds("change", by=OTHER_NURSE, but=("off-peel", "press"))
    story.shows("off-peel press", "06", "Mon 09:00", by=WARD_NURSE)
    if changes_by == STOMA_NURSE:
        story.shows(story.rows("change"), "06", "Tue 09:00", by=STOMA_NURSE)
    story.shows("off-peel press", "06", "Wed 09:00", by=changes_by)
    return story.holds("topics").all_else()


def mr_c():
    """3. Ileal conduit; taps alone twice, always on a bedside bag, wants one at home; never joined or parted it."""
    return only("pouch", "change", kind="urostomy", outlet="tap", items=frozenset({"night-bag"}))


def mrs_d(call=True):
    """4b. Sigmoid colostomy, gas only; thickened water twice, five hours apart; the change alone once."""
    story = Going("colostomy", interval_hours=96).state("no-stool-yet", "Mon 00:00").leaving("Wed 12:00")
    story.shows(story.rows("pouch"), "10", "Mon 08:00")
    for when in ("Tue 08:00", "Tue 13:00"):
        story.shows(story.rows("pouch"), "06", when, practice=True)
    story.shows(story.rows("change"), "06", "Tue 10:00", by=STOMA_NURSE)  # due Saturday 10:00, day 8
    story.holds("topics").all_else().visit("Thu 10:00")
    return story.arranged("first-stool-call", due="Thu 18:00") if call else story


def mr_e(leaving, visit, change="Mon 10:00"):
    """5. Ileostomy; empties alone, change at 04, leak plan said. Changed Monday 10:00, every three days."""
    story = Going().leaving(leaving)
    for when in ("Mon 08:00", "Mon 14:00"):
        story.shows(story.rows("pouch"), "06", when)
    story.shows(story.rows("change"), "04", change)
    story.shows(story.rows("topics"), "told", "Mon 08:00").shows(story.rows("topics"), "own_words", "Tue 09:00")
    return story.all_else().visit(visit)


def mr_g():
    """7a. 80, dementia, ileostomy; his daughter does all alone twice, there from 8 to 20."""
    story = Going().helper("daughter").comes("daughter", BY_DAY)
    story.shows(story.rows("pouch"), "02", "Mon 10:00")
    return story.holds("pouch", "change", "topics", learner="daughter").all_else()


def mr_h():
    """8a. All skills; fluid loss told and asked once at 14:00, leaves 16:00 the same day."""
    story = Going().holds("pouch", "change").holds("topics", but=("t-fluid",)).all_else().leaving("Wed 16:00")
    return story.shows("t-fluid", "told", "Wed 14:00").shows("t-fluid", "own_words", "Wed 14:10")


def mrs_i(restored=False):
    """9. Independent on Tuesday with a strip outlet; on Wednesday 15:00 a pouch with a clip goes on."""
    story = all_held(outlet="strip").new_kit("Wed 15:00", outlet="clip")
    return story.shows(story.rows("pouch"), "06", "Thu 08:00") if restored else story


def mr_j():
    """10a. Independent. The pouch has been on for 60 hours when it leaks at 03:00; a nurse changes him asleep."""
    story = all_held()
    return story.shows(story.rows("pouch"), "06", "Fri 10:00").care("change", "Fri 21:00", "leak").leaving("Sat 12:00")


def mr_l():
    """12. Independent; delirium for three days, all 88; clear on the day of leaving, nothing shown since."""
    story = all_held().state("delirium", "Wed 20:00", "Sat 08:00")
    for when in ("Thu 10:00", "Fri 10:00"):
        story.shows(story.rows("pouch"), "88", when)
    return story.leaving("Sat 16:00").recheck("emptying", "Fri 18:00")


def mr_n():
    """14. Urostomy on the right alone in all; colostomy on the left emptied alone once, change 04; nobody at home."""
    story = all_held("urostomy", outlet="tap").stoma("left", "colostomy", interval_hours=72)
    story.shows(story.rows("pouch", "left"), "06", "Wed 10:00", stoma="left")
    return story.shows(story.rows("change", "left"), "04", "Wed 09:00", stoma="left").holds("topics", stoma="left")


def mr_p():
    """16. End sigmoid, two-piece closed pouch; swaps alone twice, changes the flange alone twice."""
    return all_held("colostomy", closure="closed", outlet="")


def mrs_q():
    """17a. All skills; 24-hour totals of 1,900 then 1,700 mL; the team was told, no answer written."""
    story = all_held().total("Tue 07:00", 1900).total("Wed 07:00", 1700)
    return story.caution("output-today", "Tue 07:00", told="Tue 08:00")


def mrs_s():
    """19a. Macular disease; all by touch alone, a join heard or felt; her daughter looks twice a week, taught."""
    story = Going("colostomy", opening="pre-cut").needs("sight").helper("daughter")
    story.comes("daughter", week("Wed 09-12", "Sat 08-11")).shows("t-signs", "told", "Mon 08:00", learner="daughter")
    looking = ("look-stoma", "look-skin", "look-under")
    return story.holds("pouch", "topics").holds("change", but=looking).all_else()


def mr_u(acceptance=FACILITY, kit=True):
    """21. After a stroke, 02 and 01 throughout, going to a nursing home; a named nurse there accepted all of it."""
    story = Going().to("facility").arranged("facility", **acceptance).finds("Wed 09:00", "size", "nurse", width_mm=32)
    story.shows(story.rows("pouch"), "02", "Wed 10:00").shows(story.rows("change"), "01", "Wed 09:00")
    story.arranged("sheet", language="English", theirs=True)
    return story.arranged("supplies", days=14, due="Thu+2 12:00") if kit else story


def mrs_x(hours=ALL_HOURS):
    """24a. Empties alone; her wife lays out the kit for changes: 05, 05."""
    story = Going().helper("wife").comes("wife", hours).holds("pouch", "topics")
    return story.holds("change", answer="05", by=SIGNED_OFF).all_else()


WIFE_AWAY = week(*(f"{day} 00-24" for day in ("Fri", "Sat", "Sun")))

STORIES = [
    ("1", mrs_a(), "Wed 18:00", SELF, ""),
    ("2", mr_b(), "Wed 18:00", SELF, ""),
    ("2 changes seen only by unsigned nurses", mr_b(WARD_NURSE), "Wed 18:00", NOT_YET, "change"),
    ("3", mr_c(), "Wed 18:00", NOT_YET, "night"),
    ("4b", mrs_d(), "Tue 18:00", NURSING, ""),
    ("4b without the booked call", mrs_d(call=False), "Tue 18:00", NOT_YET, "pouch"),
    ("5a", mr_e("Tue 16:00", "Wed 09:00"), "Tue 10:00", NURSING, ""),
    ("5b", mr_e("Wed 12:00", "Thu 09:00"), "Tue 10:00", NOT_YET, "change"),
    ("5b changed on the morning of leaving", mr_e("Wed 12:00", "Thu 09:00", "Wed 10:00"), "Wed 11:00", NURSING, ""),
    ("5c", mr_e("Wed 12:00", "Thu 11:00"), "Tue 10:00", NOT_YET, "change"),
    ("7a", mr_g(), "Wed 18:00", NOT_YET, "pouch"),
    ("8a", mr_h(), "Wed 15:00", NOT_YET, "know"),
    ("9", mrs_i(), "Wed 18:00", NOT_YET, "pouch change"),
    ("9 one real emptying restores both", mrs_i(restored=True), "Thu 08:05", SELF, ""),
    ("10a", mr_j(), "Sat 06:00", SELF, ""),
    ("12", mr_l(), "Sat 10:00", NOT_YET, "pouch change"),
    ("14", mr_n(), "Wed 18:00", NOT_YET, "pouch change"),
    ("16", mr_p(), "Wed 18:00", SELF, ""),
    ("17a", mrs_q(), "Wed 18:00", NOT_YET, "arrangement"),
    ("17a with a fluid plan", mrs_q().arranged("fluid-plan", "Wed 12:00", **FLUID_PLAN), "Wed 18:00", SELF, ""),
    ("19a", mrs_s(), "Wed 18:00", HELPER, ""),
    ("21", mr_u(), "Wed 18:00", NURSING, ""),
    ("21 by reception only", mr_u({**FACILITY, "is_nurse": False}), "Wed 18:00", NOT_YET, "arrangement"),
    ("21 by nobody named", mr_u({**FACILITY, "accepted_by": " "}), "Wed 18:00", NOT_YET, "arrangement"),
    ("21 kit not sent", mr_u(kit=False), "Wed 18:00", NOT_YET, "arrangement"),
    ("24a", mrs_x(), "Wed 18:00", HELPER, ""),
    ("24a wife away, nobody visits", mrs_x(week("Thu 00-24")), "Wed 18:00", NOT_YET, "change"),
]


@pytest.mark.parametrize(("name", "story", "now", "result", "parts"), STORIES, ids=[row[0] for row in STORIES])
def test_story(name, story, now, result, parts):
    found = story.ready(now)
    assert found.result == result, (found.gaps, found.missing)
    assert " ".join(gap.part for gap in found.gaps) == parts
    assert found.because or result not in HOME
    assert found.gaps or result != NOT_YET
    assert found.missing or result != CANNOT_SAY


def test_2_says_one_change_with_the_stoma_nurse():
    (gap,) = mr_b(WARD_NURSE).ready("Wed 18:00").gaps
    (way, visit) = gap.ways
    assert (way.reason.code, way.who, way.by) == ("confirm-change", "stoma-nurse", at("Thu 12:00"))
    assert visit.reason.code == "visit-by" and visit.by == at("Fri 09:00")


def test_5b_passes_with_no_margin_and_5c_with_none():
    for story, result in ((mr_e("Wed 12:00", "Thu 09:00"), NURSING), (mr_e("Wed 12:00", "Thu 11:00"), NOT_YET)):
        story.policy = story.policy.with_overrides({"visit_margin": 0})
        assert story.result("Tue 10:00") == result


def test_7a_names_the_hours_that_are_bare():
    (gap,) = mr_g().ready("Wed 18:00").gaps
    assert gap.reason.code == "gap-hours" and gap.reason.parameters["hours"] == 7 * 12
    assert gap.reason.parameters["at"].hour == 20


def test_8a_names_the_topic():
    (gap,) = mr_h().ready("Wed 15:00").gaps
    assert [(way.rows, way.learner) for way in gap.ways] == [(("t-fluid",), "person")]


def test_9_the_rest_stands():
    pouch, change = mrs_i().ready("Wed 18:00").gaps
    assert {row for way in pouch.ways for row in way.rows} == {"em-wipe", "em-close"}
    assert {row for way in change.ways for row in way.rows} == {"close"}


def test_12_says_one_emptying_and_one_change_or_a_visit():
    pouch, change = mr_l().ready("Sat 10:00").gaps
    assert [way.reason.code for way in pouch.ways] == ["after-state"]
    assert [way.reason.code for way in change.ways] == ["after-state", "visit-by"]


def test_14_names_the_left_one():
    found = mr_n().ready("Wed 18:00")
    assert {gap.stoma for gap in found.gaps} == {"left"} and "left stoma" in found.gaps[0].reason.parameters["stoma"]
    assert [(one.stoma, one.result) for one in found.stomas] == [("s", SELF), ("left", NOT_YET)]


def test_21_is_worded_care_arranged():
    assert (mr_u().ready("Wed 18:00").words, mr_e("Tue 16:00", "Wed 09:00").ready("Tue 10:00").words) == (
        "care arranged", "with nursing care arranged",
    )  # fmt: skip


def test_24a_with_the_wife_away_until_the_weekend():
    """Away Monday to Thursday: a change due on Saturday is hers, one due on Tuesday nobody's."""
    assert mrs_x(WIFE_AWAY).result("Wed 18:00") == NURSING  # leaks on the other days are the service's
    tuesday = mrs_x(WIFE_AWAY).new_kit("Wed 12:00", interval_hours=144).leaving("Mon+1 12:00")
    assert tuesday.ready("Wed 18:00").stomas[0].due == at("Tue+1 09:00")
    assert [gap.part for gap in tuesday.ready("Wed 18:00").gaps] == ["change"]
