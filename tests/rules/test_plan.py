"""The plan in sentences: how early each result can be reached, what would help, never a prediction. Invented people."""

import random
from dataclasses import replace
from datetime import timedelta

import pytest

from teaching.rules.arranged import Appointment
from teaching.rules.assess import assess
from teaching.rules.chances import Opportunity
from teaching.rules.checklist import applicable
from teaching.rules.facts import Caution, Rating
from teaching.rules.opportunities import opportunities
from teaching.rules.plan import plan
from teaching.rules.reach import REACHED, Reaching
from teaching.rules.readiness import SELF_CARING
from teaching.rules.reasons import words
from teaching.rules.teach_now import teach_now
from tests.rules.story import SIGNED_OFF, STOMA_NURSE, Story, at

EMPTYING = "em-when em-open em-wipe em-close em-hands"
DAY = timedelta(days=1)


def rows(story, *procedures):
    return [row for row in applicable(story.chart, "s", at("Mon 10:00")) if row.rated
            and row.item.procedure in procedures]


def changes(story, when, answer="06", by=STOMA_NURSE, **more):
    for row in rows(story, "change"):
        unaided = answer == "06"
        story.shows(row.code, ("right" if unaided else "wrong") if row.item.decision else answer, when, by=by, **more)
    return story


def knows(story, told="Mon 10:00", said="Tue 10:00"):
    for row in rows(story, "topics"):
        story.shows(row.code, "told", told).shows(row.code, "own_words", said)
    return story


def taught(**kit):
    """Empties alone, knows everything, one change alone on Monday at 10; changed every 72 h; leaves Friday noon."""
    story = Story(interval_hours=72, **kit).shows(EMPTYING, "06", "Mon 09:00").shows(EMPTYING, "06", "Mon 15:00")
    return knows(changes(story, "Mon 10:00")).leaving("Fri 12:00")


def planned(story, now="Tue 12:00", **options):
    moment = at(now)
    return plan(story.chart, assess(story.chart, story.policy, moment), story.policy, moment, **options)


def books(story, when, learners=("person",), **more):
    return story._add("appointments", Appointment(when, at(when), "booked", learners=learners, **more))


def test_one_sentence_names_the_only_change_left():
    found = planned(taught())
    assert words(found.said) == (
        "Once more alone; Thu 14 May 10:00 is the only change left. "
        "If it is taken, self-caring from Thu 14 May 10:00 on, not before."
    )
    assert found.slack == DAY + timedelta(hours=2)


def test_the_change_seen_by_nobody_signed_off_confirms_nothing():
    """Story 2's second half: both changes seen by unsigned nurses. A booked teacher who may teach mends it."""
    story = taught()
    story.chart = replace(story.chart, ratings=tuple(
        replace(one, witness=SIGNED_OFF if one.code == "close" else replace(one.witness, grade="registered"))
        for one in story.chart.ratings))
    assert planned(story).reach.first(SELF_CARING) is None
    books(story, "Thu 10:00", may_teach=True)
    assert planned(story).reach.first(SELF_CARING) == at("Thu 10:00")


def test_a_change_that_falls_due_after_leaving_is_no_chance():
    found = planned(taught().leaving("Thu 09:00"))
    assert found.reach.first(SELF_CARING) is None
    assert found.reach.beyond[0] == (SELF_CARING, at("Thu 10:00")) and found.slack == timedelta(hours=-1)
    assert words(found.said) == (
        "no change is left before then: self-caring not before Thu 14 May 10:00, after the planned leaving."
    )


@pytest.mark.parametrize(("first", "chance"), [
    ("Mon 17:30", "Thu 17:30"), ("Mon 18:00", "Thu 18:00"), ("Mon 23:57", "Thu 18:00"), ("Tue 03:00", "Thu 18:00"),
])
def test_nobody_is_woken_to_be_taught(first, chance):
    story = Story(interval_hours=72).care("change", first).leaving("Sat 12:00")
    assert [one.at for one in planned(story).chances if one.procedure == "change"] == [at(chance)]


def test_night_drainage_joined_tonight_and_again_tomorrow():
    """Story 3: taps held, never joined or parted: evening, morning, and both again."""
    story = Story(kind="urostomy", outlet="tap", items=frozenset({"night-bag"}), interval_hours=72)
    story.shows("ue-when ue-open ue-shut ue-look ue-hands", "06", "Mon 09:00")
    story.shows("ue-when ue-open ue-shut ue-look ue-hands", "06", "Mon 15:00")
    knows(changes(changes(story, "Mon 10:00"), "Tue 10:00")).leaving("Fri 12:00")
    assert planned(story, "Tue 16:00").reach.first(SELF_CARING) == at("Thu 07:00")


def test_wiping_and_closing_reopened_by_a_new_clip_come_back_with_one_real_emptying():
    """Story 9: a clip goes on Wednesday at 15; one real emptying alone the next morning restores both."""
    story = taught()
    changes(story, "Tue 10:00").new_kit("Wed 15:00", outlet="clip").leaving("Thu 12:00")
    assert planned(story, "Wed 18:00").reach.first(SELF_CARING) == at("Thu 08:00")


def test_evidence_that_goes_stale_before_leaving_is_said():
    """Nothing but one more change is left: what was shown of emptying is out of date two days later."""
    story = changes(taught(), "Tue 10:00").leaving("Mon+1 12:00")
    story.state("no-stool-yet", "Mon 00:00")  # so that no emptying is foreseen
    found = planned(story)
    assert found.reach.first(SELF_CARING) == at("Tue 12:00") and not found.reach.then(SELF_CARING)
    assert words(found.said) == (
        "self-caring could be reached Tue 12 May 12:00, but is out of date again by the planned moment."
    )


def test_no_day_of_leaving_looks_a_week_ahead():
    story = taught()
    story.chart = replace(story.chart, planned_at=None)
    found = planned(story)
    assert found.planned is None
    assert words(found.said) == (
        "Once more alone; 2 changes are left, the next Thu 14 May 10:00. "
        "If each is taken, self-caring from Thu 14 May 10:00 on, not before."
    )


def test_at_most_three_aims_and_each_would_cost_a_day():
    found = planned(taught())
    assert 1 <= len(found.aims) <= 3
    assert {one.row.item.procedure for one in found.aims} == {"change"}


def test_a_helper_who_is_here_now():
    story = taught().helper()
    moment = at("Tue 12:00")
    found = teach_now(story.chart, assess(story.chart, story.policy, moment), story.policy, moment, "helper", 10)
    assert len(found) == 3
    assert all(one.row.item.topic and one.row.item.hard_minimum and one.learner == "helper" for one in found)
    story._add("cautions", Caution("c", "dark-stoma", "call_now", "Stoma dark", at("Tue 11:00")))
    found = teach_now(story.chart, assess(story.chart, story.policy, moment), story.policy, moment, "helper", 10)
    assert found == (), "somebody must be called first"


@pytest.mark.parametrize("seed", range(60))
def test_the_earliest_day_is_the_one_the_rules_themselves_find(seed):
    """Play every chance as shown alone, then ask the rules at each moment: the same first moment, for one learner."""
    dice = random.Random(seed)
    story = knows(Story(interval_hours=dice.choice([24, 48, 72])), said=dice.choice(["Mon 15:00", "Tue 10:00"]))
    for when in dice.sample(["Mon 09:00", "Mon 15:00", "Mon 22:00"], dice.randrange(3)):
        story.shows(EMPTYING, dice.choice(["06", "03"]), when)
    changes(story, "Mon 10:00", answer=dice.choice(["06", "04"]))
    if dice.random() < 0.5:
        books(story, "Wed 11:00", may_teach=dice.random() < 0.7)
    story.leaving(dice.choice(["Thu 12:00", "Fri 12:00", "Sat 12:00"]))
    now, until = at("Tue 12:00"), story.chart.planned_at
    found = assess(story.chart, story.policy, now)
    chances = opportunities(story.chart, story.policy, now, until, found.changes)
    mine = Reaching(story.chart, found, story.policy, now, until, chances).reach().first(SELF_CARING)
    assert mine == _by_playing(story, chances, now, until)


def _by_playing(story, chances, now, until):
    played = replace(story.chart, ratings=(*story.chart.ratings, *(
        Rating("s", row.code, "person", "right" if row.item.decision else "06", one.at, f"played {one.at}",
               SIGNED_OFF if one.signed_off else replace(SIGNED_OFF, signed_off=False))
        for one in chances for row in applicable(story.chart, "s", now)
        if row.rated and not row.item.topic and one.shows(row.item)
    )), planned_at=until)
    topics = Reaching(story.chart, assess(story.chart, story.policy, now), story.policy, now, until, chances)
    for moment in (now, *(one.at for one in chances), until):
        known = replace(played, ratings=tuple(one for one in played.ratings if one.at <= moment))
        standings = assess(known, story.policy, moment).standings
        steps = [one for one in standings if one.row.essential and not one.row.item.topic]
        told = [one for one in standings if one.row.essential and one.row.item.topic]
        bit = topics.line.bit(moment) if moment in topics.line.moments else 0
        if all(one.held for one in steps) and all(
            one.held or topics.topic("s", one.code, "person") & bit for one in told
        ):
            return moment
    return None


@pytest.mark.parametrize("seed", range(40))
def test_more_opportunities_never_move_the_earliest_day_later(seed):
    dice = random.Random(seed)
    story = taught()
    now, until = at("Tue 12:00"), story.chart.planned_at
    found = assess(story.chart, story.policy, now)
    chances = opportunities(story.chart, story.policy, now, until, found.changes)
    fewer = tuple(one for one in chances if dice.random() < 0.6)
    extra = Opportunity(at("Wed 11:00"), dice.choice(["change", "emptying"]), "s", frozenset({"person"}), "extra")
    more = tuple(sorted((*fewer, extra), key=lambda one: one.at))
    few, many = (Reaching(story.chart, found, story.policy, now, until, each).reach() for each in (fewer, more))
    for result in REACHED:
        before, after = few.first(result), many.first(result)
        assert before is None or (after is not None and after <= before)
