"""Sentences I8-I11, I13-I15 and I17, each named by its test. Thresholds: common practice, no source."""

import pytest
from story import ASSISTANT, SIGNED_OFF, STOMA_NURSE, Story, at

from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT


def empties(**kit):
    codes = "em-when em-open em-wipe em-close em-hands"
    return Story(**kit).shows(codes, "06", "Mon 10:00").shows(codes, "06", "Mon 15:00")


def changes(kind="ileostomy", codes="off-peel", **kit):
    story = Story(kind, **kit).shows(codes, "06", "Mon 10:00", by=STOMA_NURSE)
    return story.shows(codes, "06", "Tue 10:00", by=STOMA_NURSE)


def test_i8_another_outlet_reopens_wipe_and_close_and_nothing_else():
    story = empties(outlet="strip").new_kit("Mon 18:00", outlet="clip")
    states = {code: story.is_(code, "Mon 19:00") for code in ("em-open", "em-wipe", "em-close", "em-hands")}
    assert states == {
        "em-open": "independent",
        "em-wipe": "show again",
        "em-close": "show again",
        "em-hands": "independent",
    }
    story.shows("em-wipe em-close", "06", "Mon 20:00")
    assert [story.is_(code, "Mon 21:00") for code in ("em-wipe", "em-close")] == ["independent"] * 2


@pytest.mark.parametrize(
    ("before", "after", "row", "reopened"),
    [
        ({"pieces": "one"}, {"pieces": "two"}, "press", True),
        ({"pieces": "two"}, {"pieces": "one"}, "press", False),
        ({"shape": "flat"}, {"shape": "convex"}, "centre", True),
        ({"shape": "convex"}, {"shape": "flat"}, "centre", False),
        ({}, {"items": frozenset({"belt"})}, "press", True),
        ({"opening": "cut"}, {"opening": "pre-cut"}, "fit-check", True),
        ({}, {}, "press", False),  # another make that works the same way
        ({}, {"interval_hours": 96}, "off-peel", False),
    ],
)
def test_i8_a_kit_that_works_another_way(before, after, row, reopened):
    answer = "right" if row == "fit-check" else "06"
    story = Story(**before).shows(row, answer, "Mon 10:00", by=STOMA_NURSE)
    story.shows(row, answer, "Tue 10:00", by=STOMA_NURSE).new_kit("Wed 08:00", **after)
    assert story.is_(row, "Wed 09:00") == ("show again" if reopened else "independent")


def test_i8_a_tap_for_a_cap_reopens_the_tap_rows():
    story = Story("urostomy", outlet="tap")
    story.shows("ue-open ue-shut ue-look", "06", "Mon 10:00").shows("ue-open ue-shut ue-look", "06", "Mon 15:00")
    story.new_kit("Mon 18:00", outlet="cap")
    assert [story.is_(code, "Mon 19:00") for code in ("ue-open", "ue-shut", "ue-look")] == [
        "show again",
        "show again",
        "independent",
    ]


def test_i8_a_rod_out_reopens_measure_cut_and_centre():
    story = changes(codes="measure cut centre press").state("rod", "Mon 00:00", "Wed 08:00")
    states = [story.is_(code, "Wed 09:00") for code in ("measure", "cut", "centre", "press")]
    assert states == ["show again", "show again", "show again", "independent"]


def test_i8_not_held_while_delirium_lasts_and_one_showing_after_its_end():
    story = empties().state("delirium", "Mon 18:00", "Tue 18:00")
    during = story.standing("em-open", "Tue 17:59")
    assert (during.state, during.lack, during.second_floor) == ("show again", "gap", False)
    story.shows("em-open", "06", "Tue 17:00")
    assert story.is_("em-open", "Tue 18:00") == "show again"  # what was shown during it does not answer
    assert story.shows("em-open", "06", "Tue 19:00").is_("em-open", "Tue 20:00") == "independent"


def test_i8_a_helper_is_not_touched_by_the_persons_delirium():
    story = Story().helper().state("delirium", "Mon 18:00", "Tue 08:00")
    story.shows("em-open", "06", "Mon 10:00", learner="helper").shows("em-open", "06", "Mon 15:00", learner="helper")
    assert [story.is_("em-open", when, learner="helper") for when in ("Mon 20:00", "Tue 09:00")] == ["independent"] * 2


def test_i8_topics_are_not_reopened_by_delirium():
    story = Story().shows("t-call", "told", "Mon 10:00").shows("t-call", "own_words", "Tue 10:00")
    assert story.state("delirium", "Tue 12:00", "Wed 12:00").is_("t-call", "Wed 13:00") == "independent"


def test_i8_a_finding_the_learner_missed_reopens_the_looking_rows():
    def look(noticed_by):
        story = changes(codes="look-stoma look-skin off-peel")
        return story.finds("Tue 10:00", "s person Tue 12 10:00", noticed_by, skin=(("feet", "wet-raw"),))

    missed, found = look("nurse"), look("learner")
    assert [missed.is_(code, "Tue 12:00") for code in ("look-skin", "off-peel")] == ["show again", "independent"]
    assert found.is_("look-skin", "Tue 12:00") == "independent"


def test_i8_re_sited_begins_again_where_the_stoma_sits():
    story = changes(codes="measure off-peel").state("re-sited", "Tue 12:00", "Tue 16:00")
    assert (story.is_("measure", "Tue 18:00"), story.is_("off-peel", "Tue 18:00")) == ("not started", "show again")


def test_i9_05_is_judged_on_a_second_floor():
    story = Story().helper().shows("off-peel", "05", "Mon 10:00", by=SIGNED_OFF).shows("off-peel", "05", "Tue 10:00")
    standing = story.standing("off-peel", "Tue 12:00")
    assert (standing.state, standing.second_floor, standing.helper_only) == ("learning", True, True)


def test_i9_a_05_ends_only_the_run_of_06():
    story = changes().shows("off-peel", "05", "Wed 10:00", by=STOMA_NURSE)
    standing = story.standing("off-peel", "Wed 12:00")
    assert (standing.state, standing.second_floor) == ("slipped", True)
    lower = story.shows("off-peel", "04", "Thu 10:00", by=STOMA_NURSE).standing("off-peel", "Thu 12:00")
    assert (lower.state, lower.second_floor) == ("slipped", False)


def test_i10_closing_at_an_emptying_lends_to_closing_at_a_change():
    story = Story().shows("em-close", "06", "Mon 10:00").shows("close", "06", "Tue 10:00")
    assert story.is_("close", "Tue 12:00") == "independent"
    assert story.is_("em-close", "Tue 12:00") == "independent"


def test_i10_shut_first_lends_to_close_and_not_back():
    story = Story().shows("close", "06", "Mon 10:00", by=STOMA_NURSE).shows("close", "06", "Tue 10:00", by=STOMA_NURSE)
    assert story.is_("shut-first", "Tue 12:00") == "not started"
    other = Story().shows("shut-first", "06", "Mon 10:00").shows("close", "06", "Tue 10:00")
    assert other.is_("close", "Tue 12:00") == "independent"


def test_i10_what_is_lent_must_be_later_than_the_borrowers_last_lower_rating():
    story = (
        Story().shows("em-close", "06", "Mon 10:00").shows("close", "03", "Tue 10:00").shows("close", "06", "Wed 10:00")
    )
    assert story.is_("close", "Wed 12:00") == "shown once"
    assert story.shows("em-close", "06", "Thu 08:00").is_("close", "Thu 09:00") == "independent"


def test_i11_a_decision_is_shown_by_judging_rightly_needed_or_not():
    kit = {"items": frozenset({"powder"})}
    story = changes(codes="measure", **kit)
    story.shows("powder", "not_needed", "Mon 10:00", by=STOMA_NURSE).shows(
        "powder", "right", "Tue 10:00", by=STOMA_NURSE
    )
    assert story.is_("powder", "Tue 12:00") == "independent"
    assert story.shows("powder", "wrong", "Wed 10:00").is_("powder", "Wed 12:00") == "slipped"
    never = Story().shows("hair", "not_needed", "Mon 10:00", by=STOMA_NURSE)
    assert never.shows("hair", "not_needed", "Tue 10:00").is_("hair", "Tue 12:00") == "not needed"


def test_i13_looking_may_be_done_by_a_helper_who_sees_agreed_and_was_taught():
    def looks(taught=True, **helper):
        story = Story().needs("sight").helper(**helper)
        return (story.shows("t-signs", "told", "Mon 10:00", learner="helper") if taught else story).standing(
            "look-skin", "Tue 12:00", learner="helper"
        )

    assert looks().may_look
    assert not looks(taught=False).may_look
    assert not looks(agreed=False).may_look
    assert not looks(needs=("sight",)).may_look


def test_i13_no_06_of_looking_is_then_asked_of_the_person():
    story = Story().needs("sight").helper().shows("t-signs", "told", "Mon 10:00", learner="helper")
    done = assess(story.chart, DEFAULT, at("Mon 12:00"))
    change = next(one for one in done.conclusions if (one.learner, one.procedure) == ("person", "change"))
    alone = assess(Story().needs("sight").chart, DEFAULT, at("Mon 12:00"))
    whole = next(one for one in alone.conclusions if one.procedure == "change")
    assert whole.essential - change.essential == 3


def test_i13_aids_never_lower_a_level():
    story = changes().shows("cut", "06", "Mon 10:00", by=STOMA_NURSE, aids=frozenset({"mirror"}))
    story.shows("cut", "06", "Tue 10:00", by=STOMA_NURSE, aids=frozenset({"cue-card"}))
    assert story.is_("cut", "Tue 12:00") == "independent"


@pytest.mark.parametrize(
    ("answers", "lack"), [(["10"], "missing"), (["88", "10"], "missing"), (["07"], "gap"), ([], "gap")]
)
def test_i14_only_10_or_88_is_missing_even_if_a_showing_is_lent(answers, lack):
    story = Story().shows("em-close", "06", "Mon 10:00")
    for hour, answer in enumerate(answers):
        story.shows("close", answer, f"Mon 1{hour}:30")
    assert story.standing("close", "Mon 18:00").lack == lack
    assert story.is_("close", "Mon 18:00") == "shown once"


def test_i15_evidence_of_one_stoma_never_serves_another():
    story = Story("urostomy", outlet="tap").stoma("left", "urostomy", outlet="tap")
    story.shows("ue-open", "06", "Mon 10:00").shows("ue-open", "06", "Mon 15:00")
    assert (story.is_("ue-open", "Mon 16:00"), story.is_("ue-open", "Mon 16:00", stoma="left")) == (
        "independent",
        "not started",
    )


def test_i15_a_wet_colostomy_has_the_taps_both_topics_and_no_bowel_emptying():
    kit = {"outlet": "tap", "items": frozenset({"night-bag"})}
    codes = {one.code for one in assess(Story("wet-colostomy", **kit).chart, DEFAULT, at("Mon 12:00")).standings}
    assert {"ue-open", "ue-shut", "nd-join", "off-cover", "shut-first", "close", "t-uti", "t-slow"} <= codes
    assert not {code for code in codes if code.startswith(("em-", "cl-"))}


def test_i17_care_given_and_reported_change_no_row():
    story = empties()
    before = assess(story.chart, DEFAULT, at("Mon 16:00"))
    story.care("change", "Mon 15:30", wear_end="leak").shows("em-open", "01", "Mon 15:40", reported=True, by=ASSISTANT)
    after = assess(story.chart, DEFAULT, at("Mon 16:00"))
    assert [one.state for one in after.standings] == [one.state for one in before.standings]
    assert [change.last for change in after.changes] == [at("Mon 15:30")]
