"""R11, R13: what is not known and whether it matters, and who has agreed; each bound from both sides."""

from dataclasses import replace

import pytest
from going_home import ALL_HOURS, Going, all_held, judge, only
from story import ASSISTANT, at

from teaching.rules.facts import Consent

SELF, HELPER = "self-caring", "with a named helper"
NOT_YET, CANNOT_SAY = "not yet", "cannot say"


def missing(story, now="Wed 18:00"):
    return [gap.reason.code for gap in story.ready(now).missing]


def test_r11_nothing_signed_for_48_hours_is_missing_and_48_hours_are_not():
    story = all_held().leaving("Sat 12:00")
    assert story.result("Fri 10:00") == SELF
    assert (story.result("Fri 10:01"), missing(story, "Fri 10:01")[0]) == (CANNOT_SAY, "not-fresh")
    assert missing(story.recheck("emptying", "Fri 09:00", by=ASSISTANT), "Fri 10:01")[0] == "not-fresh"
    assert story.recheck("emptying", "Fri 09:30").result("Fri 10:01") == SELF


@pytest.mark.parametrize("answer", ["10", "88", "07"])
def test_r11_not_rated_is_not_teaching(answer):
    story = all_held().leaving("Sat 12:00").shows("hair", answer, "Fri 09:00")
    assert missing(story, "Fri 10:01")[0] == "not-fresh"
    story.shows("t-call", "told", "Fri 09:00")
    assert missing(story, "Fri 10:01")[0] == "unknown-part"  # emptying is out of date


def test_r11_nobody_taught_here_is_missing_not_proved():
    story = Going().care("change", "Wed 09:00").all_else().visit("Fri 09:00")
    assert story.result() == CANNOT_SAY and "no-teaching-here" in missing(story)
    story.shows("t-call", "told", "Wed 10:00")
    assert story.result() == NOT_YET  # teaching went on, and the rest was not begun


def test_r11_only_nothing_to_do_or_too_unwell_is_missing():
    story = only("change")
    story.shows(story.rows("pouch"), "10", "Tue 10:00").shows(story.rows("pouch"), "88", "Wed 10:00")
    found = story.ready()
    assert (found.result, [gap.part for gap in found.missing]) == (CANNOT_SAY, ["pouch"])
    assert found.missing[0].ways[0].rows == ("em-when", "em-open", "em-wipe", "em-hands")  # a change lends em-close
    assert story.shows("em-open", "04", "Wed 12:00").result() == NOT_YET


def test_r11_reported_and_not_seen_here_is_missing():
    story = only("change")
    assert story.result() == NOT_YET
    story.shows(story.rows("pouch").replace("em-close", ""), "06", "Tue 10:00", reported=True)
    assert story.result() == CANNOT_SAY  # em-close is lent by the changes


def test_r11_no_change_no_interval_or_no_leaving_is_missing():
    for story, code in (
        (all_held(interval_hours=None), "no-interval"),
        (Going().holds("pouch", "topics").all_else().visit("Fri 09:00"), "no-change"),
    ):
        assert (story.result(), missing(story)) == (CANNOT_SAY, [code])


def test_r11_without_a_planned_leaving_it_says_so_and_still_lists_gaps():
    story = all_held()
    story.chart = replace(story.chart, planned_at=None)
    found = story.ready()
    assert (found.result, missing(story), found.leaving) == (CANNOT_SAY, ["no-leaving"], None)
    story = only("change").helper("wife")
    story.chart = replace(story.chart, planned_at=None)
    assert [gap.part for gap in story.ready().gaps] == ["pouch"]
    assert story.ready().gaps[0].ways[0].by is None


def test_r11_a_leaving_that_has_passed_is_planned_anew():
    story = all_held().shows("em-open", "06", "Thu 11:00")
    assert story.result("Thu 12:00") == SELF
    assert missing(story, "Thu 12:01") == ["leaving-passed"]


def test_r11_hours_that_nobody_has_said_are_missing():
    story = Going().helper("wife").holds("pouch", "change", "topics", learner="wife").all_else()
    found = story.shows("em-open", "01", "Wed 08:00").ready()
    assert found.result == CANNOT_SAY
    assert "ask-hours" in [way.reason.code for gap in found.missing for way in gap.ways]
    assert story.comes("wife", ALL_HOURS).result() == HELPER


def test_r11_before_there_is_a_stoma_nothing_can_be_said():
    story = Going().all_else()
    story.chart = replace(story.chart, stomas=(), kits=())
    assert (story.result(), missing(story)) == (CANNOT_SAY, ["no-stoma", "no-teaching-here"])


def test_r11_what_is_missing_matters_only_where_it_is_leaned_on():
    """The wife's emptying is out of date; he does everything himself."""
    story = all_held().helper("wife").shows("em-open", "88", "Wed 08:00", learner="wife")
    assert (story.result(), missing(story)) == (SELF, [])


def test_r11_a_proved_gap_comes_before_what_is_missing():
    story = all_held(interval_hours=None).all_else(("number",))
    assert (story.result(), missing(story)) == (NOT_YET, ["no-interval"])


def test_r13_consent_taken_back_leaves_the_helper_unused_from_then():
    story = Going().helper("wife").comes("wife", ALL_HOURS).shows("em-open", "02", "Tue 10:00")
    story.holds("pouch", "change", "topics", learner="wife").all_else()
    assert story.result() == HELPER
    for whose in ("person", "helper"):
        back = replace(story.chart, consents=(*story.chart.consents, Consent("wife", whose, False, at("Wed 17:00"))))
        assert judge(back, story.policy, at("Wed 16:59")).result == HELPER
        assert judge(back, story.policy, at("Wed 17:00")).result == NOT_YET
        again = replace(back, consents=(*back.consents, Consent("wife", whose, True, at("Wed 17:30"))))
        assert judge(again, story.policy, at("Wed 18:00")).result == HELPER  # her evidence stayed on record
