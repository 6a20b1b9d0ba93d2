"""Bound for a care facility: nobody is asked to learn, unless a booked time says that somebody wants it."""

from dataclasses import replace
from datetime import date

import pytest
from going_home import Going
from story import at
from test_readiness_stories import mr_u

from teaching.rules.assess import assess
from teaching.rules.facts import Appointment
from teaching.rules.handover.parts import Who
from teaching.rules.handover.sbar import handover
from teaching.rules.outlook import outlook
from teaching.rules.plan import plan
from teaching.rules.policy import DEFAULT
from teaching.rules.reasons import words
from teaching.rules.teach_now import teach_now

NOW = "Wed 18:00"
SAID = "Bound for a care facility: its nurses take over. Teach what the person asks for."


def judged(story, now=NOW):
    return assess(story.chart, story.policy, at(now))


def booked(story, when, procedure="emptying", state="booked", learners=(), stoma=""):
    one = Appointment(f"booked {when}", at(when), state, procedure, learners, stoma)
    story.chart = replace(story.chart, appointments=(*story.chart.appointments, one))
    return story


def asked(story, now=NOW):
    return {(one.learner, one.row.item.procedure) for one in judged(story, now).aims}


def test_nobody_is_asked_to_learn_and_it_says_so():
    found = judged(mr_u())
    assert found.aims == ()
    assert words(found.waits) == SAID
    assert judged(mr_u().to("home")).aims and judged(mr_u().to("home")).waits is None


def test_it_is_so_before_the_facility_has_accepted():
    """Whether a nurse there accepts is a gap of readiness; it makes no learner of somebody who is not to be one."""
    assert judged(Going().to("facility")).aims == ()


def test_what_is_booked_is_wanted_and_nothing_else():
    assert asked(booked(mr_u(), "Thu 10:00")) == {("person", "emptying")}
    assert asked(booked(mr_u(), "Thu 10:00", "topics")) == {("person", "topics")}
    assert judged(booked(mr_u(), "Thu 10:00")).waits is None


def test_a_helper_who_is_booked_learns_and_the_person_does_not():
    story = mr_u().helper("wife").comes("wife", "1" * 168)
    assert asked(story) == set()
    assert asked(booked(story, "Thu 10:00", learners=("wife",))) == {("wife", "emptying")}


@pytest.mark.parametrize("state", ["cancelled", "missed", "held"])
def test_what_no_longer_comes_is_not_wanted(state):
    assert asked(booked(mr_u(), "Thu 10:00", state=state)) == set()


def test_a_booked_time_counts_until_its_day_is_over_and_the_answer_holds_so_long():
    story = booked(mr_u(), "Wed 10:00")
    assert asked(story, "Wed 18:00") == {("person", "emptying")}
    assert asked(story, "Thu 00:00") == set()
    until = judged(story, "Wed 18:00").holds_until
    assert until is not None and until <= at("Thu 00:00")


def test_the_other_stoma_is_not_asked_for():
    story = booked(Going().stoma("left", "colostomy", interval_hours=72).to("facility"), "Thu 10:00", stoma="left")
    assert {one.stoma for one in judged(story).aims} == {"left"}


def test_the_plan_says_the_same_and_the_discharge_list_asks_for_no_lesson():
    story, moment = mr_u(kit=False), at(NOW)
    found = judged(story)
    assert words(plan(story.chart, found, story.policy, moment).said) == SAID
    told, _ = outlook(story.chart, found, story.ready(NOW), story.policy, moment)
    assert told.plan == "" and told.helps.startswith("Arrange kit")


def test_what_is_shown_is_still_said_and_readiness_is_the_same():
    """What is recorded stays recorded; only what is asked for changes."""
    with_booked = booked(mr_u(), "Thu 10:00")
    assert judged(mr_u()).standings == judged(with_booked).standings
    assert mr_u().ready(NOW).result == with_booked.ready(NOW).result == "with nursing care arranged"


def test_the_handover_asks_nothing_of_them_and_says_it_once():
    story, moment = mr_u(), at(NOW)
    who = Who("Made Up", date(1950, 1, 2), "000-00", "A1", "English")
    text = handover(story.chart, judged(story), story.policy, moment, who).text
    assert f"Teach: {SAID}" in text and text.count("Bound for a care facility") == 1


@pytest.mark.parametrize(("state", "said"), [("paused", "Teaching is paused."), ("stopped", "Teaching has stopped.")])
def test_paused_or_stopped_nobody_is_said_to_teach_what_is_asked_for(state, said):
    """One sentence, not two that disagree; and still nothing is asked of anybody."""
    story, moment = mr_u().helper("wife"), at(NOW)
    story.chart = replace(story.chart, state=state)
    found = judged(story)
    assert found.waits is None and found.aims == ()
    assert SAID not in [words(one) for one in found.stands_out]
    assert said in [words(one) for one in found.stands_out]
    assert plan(story.chart, found, story.policy, moment).moves == ()
    assert teach_now(story.chart, found, DEFAULT, moment, "wife", 60) == ()
    who = Who("Made Up", date(1950, 1, 2), "000-00", "A1", "English")
    assert "Bound for a care facility" not in handover(story.chart, found, story.policy, moment, who).text
