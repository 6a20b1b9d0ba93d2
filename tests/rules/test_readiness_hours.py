"""R2 to R6, R9 and R12, hour by hour: each bound from both sides."""

from dataclasses import replace

import pytest
from going_home import ALL_HOURS, BY_DAY, Going, all_held, only, week
from story import SIGNED_OFF, STOMA_NURSE, WARD_NURSE, at

SELF, HELPER, NURSING = "self-caring", "with a named helper", "with nursing care arranged"
NOT_YET, CANNOT_SAY = "not yet", "cannot say"
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def daily(*spans):
    return week(*(f"{day} {span}" for day in DAYS for span in spans))


def parts(story, now="Wed 18:00"):
    return [gap.part for gap in story.ready(now).gaps]


def helped(*others, **hours):
    """The person does nothing; helpers do all, at their hours."""
    story = Going()
    story.shows(story.rows("pouch"), "02", "Wed 10:00")
    for name, said in hours.items():
        story.helper(name).comes(name, said).holds("pouch", "change", "topics", learner=name)
    return story.all_else(*others)


def test_r2_two_helpers_may_share_the_day_and_no_hour_may_be_bare():
    assert helped(wife=daily("08-20"), son=daily("00-08", "20-24")).result() == HELPER
    story = helped(wife=daily("08-20"), son=daily("00-08", "21-24"))
    assert parts(story) == ["pouch"]
    assert story.ready().gaps[0].reason.parameters["hours"] == 7


def test_r2_the_hour_of_leaving_is_the_first():
    """Leaves Thursday 12:00: back from 12 is in time, from 13 is not; the hour before does not matter."""
    away = ("Thu 08:00", "Thu 12:00", False)
    assert replace_hours(helped(wife=ALL_HOURS), away).result() == HELPER
    assert parts(replace_hours(helped(wife=ALL_HOURS), ("Thu 08:00", "Thu 13:00", False))) == ["pouch"]


def replace_hours(story, *exceptions):
    return story.comes("wife", ALL_HOURS, *exceptions)


@pytest.mark.parametrize(
    ("gone", "result"),
    [
        (("Thu+1 12:00", "Thu+1 20:00"), HELPER),  # the week is over at the hour of leaving
        (("Thu+1 11:00", "Thu+1 20:00"), NOT_YET),
    ],
)
def test_r2_the_horizon_is_seven_days(gone, result):
    assert replace_hours(helped(wife=ALL_HOURS), (*gone, False)).result() == result


def test_r2_the_horizon_goes_on_to_the_first_change_and_its_margin():
    """Changed every seven days, on Wednesday 09:00 and again at Wed+1; leaves right after it: due Wed+2 less 12 h."""
    story = helped(wife=ALL_HOURS).new_kit("Wed 08:00", interval_hours=168).leaving("Wed 20:00")
    ends = story.ready().span.ends
    assert ends == at("Thu+1 09:00") > at("Wed+1 20:00")
    assert replace_hours(story, ("Thu+1 09:00", "Thu+1 12:00", False)).result() == HELPER
    assert replace_hours(story, ("Thu+1 08:00", "Thu+1 12:00", False)).result() == NOT_YET


@pytest.mark.parametrize(
    ("hours", "result"),
    [
        (daily("00-06", "22-24"), HELPER),
        (daily("00-05", "22-24"), NOT_YET),
        (daily("00-06", "23-24"), NOT_YET),
    ],
)
def test_r2_night_rows_are_needed_from_22_to_6(hours, result):
    """He empties his tap alone at every hour; joining the night bag is his wife's."""
    story = only("pouch", "change", kind="urostomy", outlet="tap", items=frozenset({"night-bag"}))
    story.helper("wife").comes("wife", hours).holds("night", "topics", learner="wife")
    assert story.result() == result


def test_r3_a_number_alone_is_no_leak_service():
    story = only("pouch").visit("Fri 09:00")
    assert story.result() == NURSING
    bare = only("pouch").visit("Fri 09:00").all_else(("leak-service",))
    assert parts(bare) == ["leak"]
    assert bare.ready().gaps[0].ways[-1].reason.code == "leak-service"


@pytest.mark.parametrize(
    ("told", "result"),
    [
        ({"answers_hours": 4, "day_and_night": True}, NURSING),
        ({"answers_hours": 5, "day_and_night": True}, NOT_YET),
        ({"day_and_night": True}, NOT_YET),  # how soon it comes was not said
        ({"answers_hours": 2}, NOT_YET),  # nor its hours
        ({"answers_hours": 2, "from_hour": 0, "until_hour": 24, "weekends": True}, NURSING),
        ({"answers_hours": 2, "from_hour": 0, "until_hour": 24}, NOT_YET),
        ({"answers_hours": 2, "from_hour": 8, "until_hour": 20, "weekends": True}, NOT_YET),
    ],
)
def test_r3_a_leak_service_has_its_hours_and_answers_in_time(told, result):
    story = only("pouch").visit("Fri 09:00").all_else(("leak-service",)).arranged("leak-service", **told)
    assert story.result() == result


def test_r3_a_service_by_day_and_a_wife_by_night():
    story = only("pouch").visit("Fri 09:00").all_else(("leak-service",))
    story.arranged("leak-service", answers_hours=2, from_hour=8, until_hour=20, weekends=True)
    story.helper("wife").comes("wife", daily("00-08", "20-24")).holds("change", "topics", learner="wife")
    assert story.result() == NURSING
    assert {one.code for one in story.ready().because} == {"leans-helper", "leans-nursing"}


def test_r3_whoever_changes_the_pouch_needs_no_service():
    assert all_held().all_else(("leak-service",)).result() == SELF


def test_r4_who_has_not_explained_every_hard_topic_is_not_counted_by_the_hour():
    story = Going().helper("wife").comes("wife", ALL_HOURS).shows("em-open", "02", "Wed 10:00")
    story.holds("pouch", "change", learner="wife").holds("topics", learner="wife", but=("t-fluid",)).all_else()
    found = story.ready()
    assert (found.result, [gap.part for gap in found.gaps]) == (NOT_YET, ["know"])
    assert ("wife", ("t-fluid",)) in [(way.learner, way.rows) for way in found.gaps[0].ways]


def test_r4_a_helper_at_set_times_need_not_have_explained_them():
    """She changes on Saturday mornings; he is counted for all the rest; a service comes for leaks."""
    story = only("pouch").helper("wife").comes("wife", week("Sat 07-09")).holds("change", learner="wife")
    assert story.result() == NURSING  # leaks are the service's
    assert {(one.code, one.parameters["what"]) for one in story.ready().because} == {
        ("leans-nursing", "a leak"), ("leans-helper", "the first change and looking at stoma and skin"),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("visit", "result"),
    [("Fri 09:00", NURSING), ("Fri 09:01", NOT_YET), ("Thu 12:00", NURSING), ("Thu 11:59", NOT_YET)],
)
def test_r5_a_visit_comes_from_leaving_on_and_a_day_before_the_change(visit, result):
    """Due Saturday 09:00, leaves Thursday 12:00."""
    assert only("pouch").visit(visit).result() == result


def test_r5_a_visit_counts_once_somebody_named_has_accepted_it_and_for_a_change():
    for visit in ({"state": "asked"}, {"by": ""}, {"state": "cancelled"}, {"for_change": False}):
        assert parts(only("pouch").visit("Fri 09:00", **visit)) == ["change"]


@pytest.mark.parametrize(
    ("hours", "result"),
    [
        (week("Sat 08-09"), NURSING),
        (week("Sat 09-10"), NOT_YET),  # it is due at 09:00
        (week("Fri 09-10"), NURSING),
        (week("Fri 08-09"), NOT_YET),  # more than a day before
    ],
)
def test_r5_a_helper_is_there_in_some_hour_of_the_day_before_it_is_due(hours, result):
    story = only("pouch").helper("wife").comes("wife", hours).holds("change", learner="wife")
    assert story.result() == result


def test_r5_the_hours_before_leaving_do_not_count():
    """Leaves Friday 12:00, due Saturday 09:00: the wife of Friday morning is no help, of Friday noon she is."""
    for hours, result in ((week("Fri 09-12"), NOT_YET), (week("Fri 12-13"), NURSING)):
        story = only("pouch").helper("wife").comes("wife", hours).holds("change", learner="wife").leaving("Fri 12:00")
        story.shows("em-hands", "06", "Thu 10:00")
        assert story.result("Thu 12:00") == result


def test_r5_two_who_are_there_together_may_share_the_change():
    """He does all but the cutting, which his wife does; both must be there in one hour."""
    story = only("pouch").holds("change", but=("cut",)).helper("wife").comes("wife", week("Sat 07-08"))
    assert parts(story) == ["change"]
    others = [code for code in story.rows("change").split() if code != "cut"]
    assert story.holds("change", learner="wife", but=others).result() == NURSING


@pytest.mark.parametrize(("visit", "result"), [("Sat 09:00", NURSING), ("Sat 09:01", NOT_YET), ("Thu 12:00", NURSING)])
def test_r5_a_look_only_visit_serves_looking_from_leaving_to_the_change(visit, result):
    looking = ("look-stoma", "look-skin", "look-under")
    story = only("pouch").needs("sight").holds("change", but=looking).visit(visit, for_change=False)
    assert story.result() == result


@pytest.mark.parametrize(("hours", "result"), [(week("Sat 08-09"), HELPER), (week("Sun 08-09"), NOT_YET)])
def test_r5_who_looks_is_there_when_the_pouch_is_off(hours, result):
    looking = ("look-stoma", "look-skin", "look-under")
    story = only("pouch").needs("sight").holds("change", but=looking).helper("son").comes("son", hours)
    assert story.shows("t-signs", "told", "Mon 08:00", learner="son").result() == result


@pytest.mark.parametrize(("hours", "result"), [(week("Sat 07-08"), NURSING), (week("Sat 08-09"), NOT_YET)])
def test_r5_who_looks_is_there_in_the_hour_of_the_change(hours, result):
    """His wife changes on Saturday from 7 to 8, and does not see well; his son looks."""
    looking = ("look-stoma", "look-skin", "look-under")
    story = only("pouch").needs("sight").helper("wife", needs=("sight",)).comes("wife", week("Sat 07-08"))
    story.holds("change", but=looking, learner="wife").helper("son").comes("son", hours)
    assert story.shows("t-signs", "told", "Mon 08:00", learner="son").result() == result


def test_r6_other_topics_by_any_helper_or_a_visit_that_is_accepted():
    def without(*topics):
        return Going().holds("pouch", "change").holds("topics", but=topics).all_else()

    assert parts(without("t-order")) == ["topics"]
    by_wife = without("t-order").helper("wife")
    by_wife.shows("t-order", "told", "Mon 08:00", learner="wife")
    assert by_wife.shows("t-order", "own_words", "Tue 09:00", learner="wife").result() == HELPER
    assert without("t-order").visit("Fri 09:00", for_change=False).result() == NURSING
    assert parts(without("t-order").visit("Fri 09:00", state="asked")) == ["topics"]


def test_r12_set_out_only_needs_somebody_there_at_the_hour():
    """She empties once it is set out: her wife must be there day and night."""
    story = Going().helper("wife").comes("wife", ALL_HOURS).holds("topics", "change").all_else()
    assert story.holds("pouch", answer="05", by=SIGNED_OFF).result() == HELPER
    assert parts(story.comes("wife", BY_DAY)) == ["pouch"]


def test_r12_a_helper_who_needs_it_set_out_needs_another_helper():
    """The person, who does nothing of it, does not set out for her either."""
    story = Going().helper("wife").comes("wife", ALL_HOURS).shows("em-open", "02", "Wed 08:00")
    story.holds("change", "topics", learner="wife").holds("pouch", answer="05", learner="wife").all_else()
    assert parts(story) == ["pouch"]
    assert story.helper("son").comes("son", ALL_HOURS).result() == HELPER


def test_r12_the_weakest_cover_used_names_the_result():
    story = only("pouch").helper("wife").comes("wife", ALL_HOURS).holds("change", "topics", learner="wife")
    assert story.result() == HELPER
    assert story.visit("Fri 09:00").result() == HELPER  # a visit that is not leaned on changes nothing
    assert all_held().helper("wife").comes("wife", ALL_HOURS).result() == SELF


def test_r14_two_stomas_are_each_judged_and_the_weaker_names_the_result():
    story = all_held("urostomy", outlet="tap").stoma("left", "colostomy", interval_hours=72)
    story.holds("pouch", "topics", stoma="left").shows(story.rows("change", "left"), "04", "Wed 09:00", stoma="left")
    assert parts(story) == ["change"]
    story.visit("Fri 09:00", stoma="left")
    assert [one.result for one in story.ready().stomas] == [SELF, NURSING]
    assert story.result() == NURSING
    other = replace(story.chart, visits=tuple(replace(one, stoma="s") for one in story.chart.visits))
    story.chart = other
    assert parts(story) == ["change"]


def test_who_saw_it_matters_as_for_the_rows():
    assert Going().holds("pouch", "topics").holds("change", by=WARD_NURSE).all_else().result() == NOT_YET
    assert Going().holds("pouch", "topics").holds("change", by=STOMA_NURSE).all_else().result() == SELF
