"""Sets of learners, rows together, what is foreseen and what is not: the plan told as stories. Invented people."""

from dataclasses import replace

import pytest

from teaching.rules.arranged import Arrangement, Visit
from teaching.rules.assess import assess
from teaching.rules.opportunities import opportunities
from teaching.rules.readiness import SELF_CARING, WITH_HELPER, WITH_NURSING
from teaching.rules.reasons import words
from tests.rules.story import WARD_NURSE, Story, at
from tests.rules.test_plan import EMPTYING, books, changes, knows, planned, rows, taught

BY_DAY, BY_NIGHT = "0" * 8 + "1" * 12 + "0" * 4, "1" * 8 + "0" * 12 + "1" * 4


def two_helpers(day=BY_DAY, night=BY_NIGHT, there=True):
    """The person takes no part; one helper is there by day, one by night. Both know all; neither showed a step yet."""
    story = Story(interval_hours=48).care("change", "Mon 10:00").helper("day").helper("night").leaving("Sat 12:00")
    story.state("delirium", "Mon 00:00")
    weeks = {"day": day * 7, "night": night * 7}
    story.chart = replace(story.chart, learners=tuple(
        replace(one, week=weeks.get(one.key, "")) for one in story.chart.learners))
    for row in rows(story, "topics"):
        for learner in ("person", "day", "night"):
            story.shows(row.code, "told", "Mon 10:00", learner=learner, event=learner)
            story.shows(row.code, "own_words", "Tue 10:00", learner=learner, event=f"again {learner}")
    return story


def everything_booked(story, *times, learners=("day", "night")):
    for when in times:
        for procedure in ("change", "emptying"):
            books(story, when, learners=learners, may_teach=True, procedure=procedure)
            story.chart = replace(story.chart, appointments=(
                *story.chart.appointments[:-1], replace(story.chart.appointments[-1], key=f"{when} {procedure}")))
    return story


def test_two_who_must_both_learn_share_the_opportunities():
    """In one opportunity a row is shown by one of them: four changes for two learners, not two."""
    story = everything_booked(two_helpers(), "Tue 13:00", "Wed 13:00", "Thu 13:00")
    assert planned(story).reach.first(WITH_HELPER) is None
    everything_booked(story, "Fri 13:00")
    assert planned(story).reach.first(WITH_HELPER) == at("Fri 13:00")


def test_one_helper_there_at_every_hour_needs_but_two():
    story = everything_booked(two_helpers(day="1" * 24, night=""), "Tue 13:00", "Wed 13:00")
    assert planned(story).reach.first(WITH_HELPER) == at("Wed 13:00")


def test_hours_that_nobody_covers_are_closed_by_no_teaching():
    story = everything_booked(two_helpers(night="1" * 7 + "0" * 13 + "1" * 4), *(f"{day} 13:00" for day in
                              ("Tue", "Wed", "Thu", "Fri", "Sat")))
    assert planned(story).reach.first(WITH_HELPER) is None


def test_all_rows_at_one_moment_not_each_on_its_own_earliest_day():
    """Emptying is held Tuesday and out of date Thursday 15:00; the change is held Thursday 18:00: never both at once,
    while no emptying comes. The later of the two earliest days would have said Thursday 18:00.
    """
    story = Story(interval_hours=72).shows(EMPTYING, "06", "Mon 09:00").shows(EMPTYING, "06", "Tue 15:00")
    knows(changes(story, "Mon 20:00")).leaving("Sat 12:00").state("no-stool-yet", "Mon 00:00")
    assert planned(story, "Tue 16:00").reach.first(SELF_CARING) is None
    books(story, "Thu 09:00", procedure="emptying")
    assert planned(story, "Tue 16:00").reach.first(SELF_CARING) == at("Thu 18:00")


def test_booked_appointments_come_first_and_take_the_place_of_what_falls_due_that_day():
    story = books(taught(), "Thu 15:00", may_teach=True)
    chances = [one for one in planned(story).chances if one.procedure == "change"]
    assert [(one.at, one.kind, one.signed_off) for one in chances] == [(at("Thu 15:00"), "appointment", True)]
    story.chart = replace(story.chart, appointments=(replace(story.chart.appointments[0], at=at("Wed 15:00")),))
    assert [one.at for one in planned(story.leaving("Sun 12:00")).chances if one.procedure == "change"] == [
        at("Wed 15:00"), at("Sat 15:00")]


@pytest.mark.parametrize("state", ["cancelled", "missed", "held"])
def test_only_times_still_to_come_are_booked(state):
    story = books(taught(), "Wed 15:00")
    story.chart = replace(story.chart, appointments=(replace(story.chart.appointments[0], state=state),))
    assert at("Wed 15:00") not in [one.at for one in planned(story).chances]


def test_whether_a_signed_off_nurse_will_see_it_counts_as_no_where_nobody_knows():
    story = Story(interval_hours=72).shows(EMPTYING, "06", "Mon 09:00").shows(EMPTYING, "06", "Mon 15:00")
    knows(changes(story, "Mon 10:00", by=WARD_NURSE)).leaving("Fri 12:00")
    reached = {known: planned(books(replace_story(story), "Thu 10:00", may_teach=known)).reach.first(SELF_CARING)
               for known in (None, False, True)}
    assert reached == {None: None, False: None, True: at("Thu 10:00")}


def replace_story(story):
    other = Story()
    other.chart, other.policy = story.chart, story.policy
    return other


def test_a_helper_is_foreseen_at_the_hours_somebody_has_said_and_no_others():
    story = two_helpers()
    chances = planned(story).chances
    for one in chances:
        assert ("day" in one.learners) == (8 <= one.at.hour < 20)
    assert any("day" in one.learners for one in chances)
    unsaid = two_helpers(day="", night="")
    assert {one.learners for one in planned(unsaid).chances} == {frozenset({"person"})}


@pytest.mark.parametrize(("state", "said"), [
    ("paused", "Teaching is paused or has ended: nothing is foreseen."),
    ("stopped", "Teaching is paused or has ended: nothing is foreseen."),
])
def test_nothing_is_foreseen_while_teaching_is_paused(state, said):
    story = taught()
    story.chart = replace(story.chart, state=state)
    found = planned(story)
    assert (found.chances, words(found.said)) == ((), said)


# -- topics: two moments -----------------------------------------------------------------------------------


def told(story, code="t-call", **more):
    return story.shows(code, "told", "Tue 09:00", **more)


def all_but(code, interpreter=""):
    """Holds everything but one topic."""
    story = changes(changes(taught(), "Mon 08:00"), "Tue 10:00").leaving("Thu 12:00")
    story.chart = replace(story.chart, ratings=tuple(
        replace(one, interpreter=interpreter) for one in story.chart.ratings if one.code != code))
    return story


def test_a_topic_told_is_said_back_at_the_first_opportunity_of_another_day():
    assert planned(told(all_but("t-call"))).reach.first(SELF_CARING) == at("Wed 08:00")
    assert words(planned(told(all_but("t-call"))).said).startswith("What is told must be said back.")


def test_a_topic_never_told_takes_two_opportunities():
    story = all_but("t-call")
    assert planned(story, "Tue 11:00").reach.first(SELF_CARING) == at("Wed 08:00")
    assert planned(story, "Tue 20:30").reach.first(SELF_CARING) == at("Thu 08:00")
    assert planned(story.leaving("Wed 12:00"), "Tue 20:30").reach.first(SELF_CARING) is None


@pytest.mark.parametrize(("teacher", "first"), [
    ("Other Nurse", at("Tue 14:00")), ("Ward Nurse", at("Wed 08:00")), ("", at("Wed 08:00")),
])
def test_the_same_day_only_with_another_nurse_who_is_named_and_a_call_booked(teacher, first):
    story = books(told(all_but("t-call"), by=WARD_NURSE), "Tue 14:00", procedure="emptying", teacher=teacher)
    assert planned(story).reach.first(SELF_CARING) == at("Wed 08:00")
    assert planned(story.arranged("first-contact")).reach.first(SELF_CARING) == first


@pytest.mark.parametrize("needing", [
    lambda story: story.needs("interpreter"), lambda story: story.needs("language"),
    lambda story: setattr(story, "chart", replace(story.chart, language="pl")) or story,
])
def test_an_interpreter_who_is_not_booked_is_none(needing):
    story = told(needing(all_but("t-call", "trained")))
    assert planned(story).reach.first(SELF_CARING) is None
    books(story, "Wed 10:00", procedure="emptying", interpreter=True)
    assert planned(story).reach.first(SELF_CARING) == at("Wed 10:00")


# -- what nursing care takes over ---------------------------------------------------------------------------


def test_with_a_leak_service_one_may_change_and_with_a_visit_nobody_need():
    story = everything_booked(two_helpers(), "Tue 13:00", "Wed 13:00", "Thu 13:00").leaving("Fri 12:00")
    books(story, "Tue 20:00", learners=("night",), procedure="emptying")
    details = (("answers_hours", 2), ("day_and_night", True))
    story._add("arrangements", Arrangement("leak-service", "made", at("Mon 00:00"), details=details))
    assert planned(story).reach.first(WITH_NURSING) == at("Wed 13:00")
    story._add("visits", Visit("v", at("Fri 12:30"), "made", True, "A nurse"))
    # Emptyings by day are many; whoever is there by night is booked Tue 13:00 and 20:00.
    assert planned(story).reach.first(WITH_NURSING) == at("Wed 08:00")


def test_opportunities_are_in_order_and_after_now():
    story = taught()
    now = at("Tue 12:00")
    changes_due = assess(story.chart, story.policy, now).changes
    found = opportunities(story.chart, story.policy, now, at("Fri 12:00"), changes_due)
    moments = [one.at for one in found]
    assert moments == sorted(moments) and now < moments[0] and moments[-1] <= at("Fri 12:00")
