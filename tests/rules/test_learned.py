"""What one finished stay adds to the unit's learning: when independence first came, and how many tries a step took."""

from teaching.rules import learned as rules
from teaching.rules.checklist import applicable
from tests.rules.story import SIGNED_OFF, STOMA_NURSE, Story, at

EMPTYING = "em-when em-open em-wipe em-close em-hands"


def every_change_row(story, when):
    return [row for row in applicable(story.chart, "s", at(when)) if row.rated and row.item.procedure == "change"]


def shows_a_change(story, when, by):
    for row in every_change_row(story, when):
        story.shows(row.code, "right" if row.item.decision else "06", when, by=by)
    return story


def learned(story, until):
    return rules.learned(story.chart, story.policy, at(until))


def test_independence_comes_with_the_last_row_that_was_wanting():
    story = Story(kind="colostomy").shows(EMPTYING, "06", "Mon 09:00").shows(EMPTYING, "06", "Mon 15:00")
    shows_a_change(story, "Tue 10:00", SIGNED_OFF)
    assert learned(story, "Fri 12:00").independent_at is None
    shows_a_change(story, "Wed 10:00", STOMA_NURSE)
    found = learned(story, "Fri 12:00")
    assert found.independent_at == at("Wed 10:00")
    assert found.sessions == 4
    assert learned(story, "Wed 09:59").independent_at is None


def test_what_was_lost_later_does_not_take_the_day_away():
    story = Story(kind="colostomy").shows(EMPTYING, "06", "Mon 09:00").shows(EMPTYING, "06", "Mon 15:00")
    shows_a_change(story, "Tue 10:00", SIGNED_OFF)
    shows_a_change(story, "Wed 10:00", STOMA_NURSE).shows("em-close", "03", "Wed 18:00")
    assert learned(story, "Fri 12:00").independent_at == at("Wed 10:00")


def test_practice_until_stool_comes_is_not_independence():
    story = Story(kind="colostomy").state("no-stool-yet", "Mon 00:00").arranged("first-stool-call")
    story.shows(EMPTYING, "06", "Mon 09:00", practice=True).shows(EMPTYING, "06", "Mon 15:00", practice=True)
    shows_a_change(story, "Tue 10:00", SIGNED_OFF)
    shows_a_change(story, "Wed 10:00", STOMA_NURSE)
    assert learned(story, "Fri 12:00").independent_at is None


def test_tries_up_to_the_first_unaided():
    story = Story().shows("cut", "03", "Mon 09:00").shows("cut", "88", "Mon 20:00").shows("cut", "04", "Tue 09:00")
    story.shows("cut", "06", "Wed 09:00").shows("cut", "02", "Thu 09:00").shows("join", "04", "Tue 09:00")
    story.shows("fit-check", "not_needed", "Tue 09:00")
    assert set(learned(story, "Fri 12:00").tries) == {("cut", 3, True), ("join", 1, False), ("fit-check", 1, True)}


def test_reported_and_practice_are_no_tries_and_another_learner_does_not_count():
    story = Story().helper().shows("em-close", "06", "Mon 09:00", practice=True)
    story.shows("em-close", "06", "Mon 10:00", reported=True).shows("em-close", "03", "Mon 11:00")
    story.shows("em-close", "06", "Mon 12:00", learner="helper").shows("em-close", "06", "Mon 16:00")
    assert learned(story, "Fri 12:00").tries == (("em-close", 2, True),)
