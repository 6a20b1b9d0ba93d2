"""Stories of people learning, judged row by row. All are invented. The readiness they lead to comes with its own rules.

Each row: the story, then what is expected of a row at a moment, by (row, moment, learner, stoma).
"""

import pytest
from story import SIGNED_OFF, STOMA_NURSE, WARD_NURSE, Story

EMPTYING = "em-when em-open em-wipe em-close em-hands"
CHANGE = (
    "prep-kit prep-hands off-peel off-cover clean-dry look-stoma look-skin look-under measure cut "
    "shut-first centre press join close next-due"
)
TAP = "ue-when ue-open ue-shut ue-look ue-hands"


def change_twice(story, codes, by, learner="person", stoma="s"):
    story.shows(codes, "06", "Mon 09:00", by=by, learner=learner, stoma=stoma)
    return story.shows(codes, "06", "Wed 09:00", by=by, learner=learner, stoma=stoma)


def mrs_a():
    """1. End colostomy, one-piece drainable; empties and changes alone twice, a change seen by the stoma nurse."""
    story = Story("colostomy", pieces="one").shows(EMPTYING, "06", "Mon 10:00").shows(EMPTYING, "06", "Tue 10:00")
    return story.shows("off-peel press", "06", "Mon 09:00").shows("off-peel press", "06", "Wed 09:00", by=STOMA_NURSE)


def mr_b(change_seen_by=STOMA_NURSE):
    """2. Loop ileostomy; both closings seen by an unsigned ward nurse, the changes by the stoma nurse or not."""
    story = Story().shows(EMPTYING, "06", "Mon 10:00").shows(EMPTYING, "06", "Tue 10:00")
    return change_twice(story, "off-peel close", change_seen_by)


def mr_c():
    """3. Ileal conduit; taps alone twice, always on a bedside bag, never joined or parted it."""
    story = Story("urostomy", outlet="tap", items=frozenset({"night-bag"}))
    return story.shows(TAP, "06", "Mon 10:00").shows(TAP, "06", "Mon 15:00")


def mrs_d(call=True):
    """4b. Sigmoid colostomy, gas only; thickened water emptied and shut twice in the toilet, five hours apart."""
    story = Story("colostomy").state("no-stool-yet", "Mon 00:00").shows(EMPTYING, "10", "Mon 08:00")
    story.shows(EMPTYING, "06", "Mon 10:00", practice=True).shows(EMPTYING, "06", "Mon 15:00", practice=True)
    return story.arranged("first-stool-call") if call else story


def mr_h():
    """8a. Water and salt told at 14:00 and said back at once; leaves at 16:00 the same day."""
    story = Story().shows("t-fluid", "told", "Mon 14:00").shows("t-fluid", "own_words", "Mon 14:10")
    return story.arranged("first-contact")


def mrs_i(restored=False):
    """9. Independent on Tuesday with a strip; on Wednesday a pouch with a clip goes on."""
    story = Story(outlet="strip").shows(EMPTYING, "06", "Tue 08:00").shows(EMPTYING, "06", "Tue 14:00")
    story.new_kit("Wed 15:00", outlet="clip")
    return story.shows("em-wipe em-close", "06", "Thu 08:00") if restored else story


def mr_l():
    """12. Independent on day 6; delirium for three days, nothing rated but 88; clear, nothing shown since."""
    story = Story().shows(EMPTYING, "06", "Mon 10:00").shows(EMPTYING, "06", "Mon 15:00")
    story.state("delirium", "Tue 00:00", "Fri 00:00")
    return story.shows(EMPTYING, "88", "Tue 10:00").shows(EMPTYING, "88", "Wed 10:00")


def mr_n():
    """14. Two stomas: the urostomy on the right alone in all; the colostomy on the left emptied alone once."""
    story = Story("urostomy", outlet="tap").stoma("left", "colostomy")
    story.shows(TAP, "06", "Mon 10:00").shows(TAP, "06", "Mon 15:00")
    return story.shows(EMPTYING, "06", "Mon 10:00", stoma="left")


def mr_p():
    """16. End sigmoid, two-piece closed pouch; swaps alone twice, changes the flange alone twice."""
    story = Story("colostomy", closure="closed", outlet="")
    story.shows("cl-when cl-off cl-on", "06", "Mon 10:00").shows("cl-when cl-off cl-on", "06", "Mon 15:00")
    return change_twice(story, "off-peel join", STOMA_NURSE)


def mrs_s():
    """19a. Macular disease, pre-cut flange; all by touch alone; her daughter looks, agreed and taught."""
    story = Story("colostomy", opening="pre-cut").needs("sight").helper("daughter")
    story.shows("t-signs", "told", "Mon 08:00", learner="daughter")
    return change_twice(story, "off-peel centre join", STOMA_NURSE)


def mrs_x():
    """24a. Empties alone; her wife lays out the kit for changes: 05 and 05."""
    story = Story().helper("wife").shows(EMPTYING, "06", "Mon 10:00").shows(EMPTYING, "06", "Mon 15:00")
    return story.shows(CHANGE, "05", "Mon 09:00", by=SIGNED_OFF).shows(CHANGE, "05", "Tue 09:00", by=SIGNED_OFF)


STORIES = [
    ("1 emptying", mrs_a(), "em-close", "Wed 10:00", {}, "independent"),
    ("1 change, one seen by the stoma nurse", mrs_a(), "off-peel", "Wed 10:00", {}, "independent"),
    (
        "2 closing needs a registered nurse, not a sign-off",
        mr_b(WARD_NURSE),
        "em-close",
        "Wed 10:00",
        {},
        "independent",
    ),
    ("2 closing at a change too", mr_b(WARD_NURSE), "close", "Wed 10:00", {}, "independent"),
    ("2 a change seen by the stoma nurse", mr_b(), "off-peel", "Wed 10:00", {}, "independent"),
    (
        "2 changes seen only by unsigned nurses",
        mr_b(WARD_NURSE),
        "off-peel",
        "Wed 10:00",
        {},
        "shown, not yet confirmed",
    ),
    ("3 the tap", mr_c(), "ue-shut", "Mon 18:00", {}, "independent"),
    ("3 the night bag, never joined", mr_c(), "nd-join", "Mon 18:00", {}, "not started"),
    ("3 nor parted", mr_c(), "nd-part", "Mon 18:00", {}, "not started"),
    ("4b practice stands for both with a call booked", mrs_d(), "em-close", "Mon 18:00", {}, "independent"),
    ("4b not without the booked call", mrs_d(call=False), "em-close", "Mon 18:00", {}, "shown once"),
    ("8a the first telling is not explaining", mr_h(), "t-fluid", "Mon 16:00", {}, "shown once"),
    ("9 before the clip", mrs_i(), "em-close", "Wed 14:59", {}, "independent"),
    ("9 closing reopened", mrs_i(), "em-close", "Wed 18:00", {}, "show again"),
    ("9 wiping reopened", mrs_i(), "em-wipe", "Wed 18:00", {}, "show again"),
    ("9 opening stands", mrs_i(), "em-open", "Wed 18:00", {}, "independent"),
    ("9 one real emptying restores", mrs_i(restored=True), "em-close", "Thu 08:05", {}, "independent"),
    ("12 before the delirium", mr_l(), "em-open", "Mon 23:00", {}, "independent"),
    ("12 during it", mr_l(), "em-open", "Wed 12:00", {}, "show again"),
    ("12 after it, nothing shown since", mr_l(), "em-open", "Fri 10:00", {}, "show again"),
    ("14 right", mr_n(), "ue-open", "Mon 18:00", {}, "independent"),
    ("14 left", mr_n(), "em-open", "Mon 18:00", {"stoma": "left"}, "shown once"),
    ("16 a swap takes the place of emptying", mr_p(), "cl-on", "Mon 18:00", {}, "independent"),
    ("16 the flange", mr_p(), "join", "Wed 10:00", {}, "independent"),
    ("19a by touch", mrs_s(), "centre", "Wed 10:00", {}, "independent"),
    ("24a emptying", mrs_x(), "em-open", "Tue 10:00", {}, "independent"),
    ("24a change at 05", mrs_x(), "press", "Tue 10:00", {}, "learning"),
]


@pytest.mark.parametrize(("name", "story", "code", "now", "whose", "state"), STORIES, ids=[row[0] for row in STORIES])
def test_story(name, story, code, now, whose, state):
    assert story.is_(code, now, **whose) == state


def test_2_says_what_would_confirm_it():
    reasons = mr_b(WARD_NURSE).standing("off-peel", "Wed 10:00").reasons
    assert [reason.code for reason in reasons] == ["confirm-change"]


def test_4b_is_marked_provisional():
    assert mrs_d().standing("em-close", "Mon 18:00").provisional


def test_12_is_a_gap_and_says_why():
    standing = mr_l().standing("em-open", "Fri 10:00")
    assert (standing.lack, standing.reasons[0].code) == ("gap", "after-state")


def test_16_has_no_emptying():
    with pytest.raises(KeyError):
        mr_p().is_("em-open", "Wed 10:00")


def test_19a_cutting_is_not_asked_and_the_daughter_may_look():
    with pytest.raises(KeyError):
        mrs_s().is_("cut", "Wed 10:00")
    assert mrs_s().standing("look-skin", "Wed 10:00", learner="daughter").may_look


def test_24a_stands_on_the_second_floor():
    assert mrs_x().standing("press", "Tue 10:00").helper_only
