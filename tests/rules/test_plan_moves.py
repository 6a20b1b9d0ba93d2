"""What would help: each move tried by the same rules, cheapest for the skin first, never advice. Invented people."""

from dataclasses import replace

import pytest

from teaching.rules.arranged import Arrangement, Visit
from teaching.rules.facts import Caution
from teaching.rules.readiness import SELF_CARING, WITH_NURSING
from teaching.rules.reasons import words
from tests.rules.story import WARD_NURSE, Story, at
from tests.rules.test_plan import EMPTYING, books, changes, knows, planned, taught


def move(story, code, now="Tue 12:00"):
    return next((one for one in planned(story, now).moves if one.code == code), None)


def leak_service(story):
    details = (("answers_hours", 2), ("day_and_night", True))
    return story._add("arrangements", Arrangement("leak-service", "made", at("Mon 00:00"), details=details))


def changes_helped(leaves, visit=None):
    """Mr E of stories 5: empties alone, changes at 04; last change Mon 10:00, every 3 days; a leak service."""
    story = Story(interval_hours=72).shows(EMPTYING, "06", "Mon 09:00").shows(EMPTYING, "06", "Mon 15:00")
    leak_service(knows(changes(story, "Mon 10:00", answer="04"))).leaving(leaves)
    return story._add("visits", Visit("v", at(visit), "made", True, "A nurse")) if visit else story


def test_story_5a_a_visit_in_time_is_cover_already():
    found = planned(changes_helped("Tue 18:00", "Wed 09:00"))
    assert found.reach.best == WITH_NURSING and found.reach.first(WITH_NURSING) == at("Tue 12:00")


@pytest.mark.parametrize(("visit", "code"), [(None, "visit"), ("Thu 09:00", "visit-time")])
def test_a_nursing_visit_or_another_time_for_it(visit, code):
    story = changes_helped("Tue 18:00", visit)
    assert planned(story).reach.best == ""
    found = move(story, code)
    assert (found.result, found.cost, found.agree) == (WITH_NURSING, 0, False)
    assert "by Wed 13 May 10:00" in words(found.reason)


def test_story_5b_a_change_on_the_morning_of_leaving_makes_room_for_the_visit():
    """Leaves Wed 12:00, visit Thu 09:00 is 1 h before due. Changed Wed 10:00, due is Sat 10:00: 49 h before."""
    story = changes_helped("Wed 12:00", "Thu 09:00")
    assert planned(story, "Tue 18:00").reach.best == ""
    found = move(story, "morning", "Tue 18:00")
    assert (found.result, found.agree) == (WITH_NURSING, True)
    assert words(found.reason) == "A change on the morning of leaving, Wed 13 May 10:00, if the stoma nurse agrees."


def test_while_somebody_must_be_called_first_there_are_no_moves_and_no_aims():
    """Mr E of stories 5, whose stoma is seen dark: one visit, or one extra change, is not what helps him now."""
    def dark(told):
        story = changes_helped("Tue 18:00")
        seen = Caution("c", "dark-stoma", "call_now", "Stoma dark", at("Mon 11:00"), told=told)
        return planned(story._add("cautions", seen))

    waits = dark(None)
    assert (waits.moves, waits.aims, waits.slack) == ((), (), None)
    assert words(waits.said) == "Call first: Stoma dark. Teaching waits."
    assert dark(at("Mon 11:10")).moves, "once told, it is for the stoma nurse to agree"


def test_no_change_on_the_morning_within_a_day_of_the_last():
    story = changes_helped("Wed 12:00", "Thu 09:00").care("change", "Tue 11:00")
    assert move(story, "morning", "Tue 18:00") is None


def test_practise_on_a_model_while_no_stool_has_come():
    """Mrs D of story 4b before her practice: thickened water twice, on separate occasions, the call being booked."""
    story = knows(changes(changes(Story(interval_hours=72), "Mon 08:00"), "Tue 08:00"))
    story.state("no-stool-yet", "Mon 00:00").arranged("first-stool-call").leaving("Thu 12:00")
    assert not [one for one in planned(story).chances if one.procedure == "emptying"]
    found = move(story, "practice")
    assert (found.result, found.cost, found.at) == (SELF_CARING, 0, at("Tue 17:00"))


def test_practice_helps_nothing_where_the_call_is_not_booked():
    story = knows(changes(changes(Story(interval_hours=72), "Mon 08:00"), "Tue 08:00"))
    assert move(story.state("no-stool-yet", "Mon 00:00").leaving("Thu 12:00"), "practice") is None


def test_somebody_who_may_confirm_it_sees_the_change_that_is_due_anyway():
    story = Story(interval_hours=72).shows(EMPTYING, "06", "Mon 09:00").shows(EMPTYING, "06", "Mon 15:00")
    knows(changes(story, "Mon 10:00", by=WARD_NURSE)).leaving("Fri 12:00")
    assert planned(story).reach.first(SELF_CARING) is None
    found = move(story, "seen")
    assert (found.result, found.cost, found.at) == (SELF_CARING, 0, at("Thu 10:00"))


def test_teach_a_helper_who_is_there_day_and_night():
    """The person is in delirium; a leak service and a visit for the change stand; emptying is what is left to learn."""
    story = leak_service(taught()).leaving("Fri 12:00").state("delirium", "Tue 09:00")
    story._add("visits", Visit("v", at("Fri 18:00"), "made", True, "A nurse"))
    assert planned(story).reach.best == ""
    assert words(planned(story).said) == "Nothing can be foreseen while there is delirium."
    found = move(story, "find-helper")
    assert (found.result, found.at) == (WITH_NURSING, at("Wed 08:00"))
    story.helper()
    assert move(story, "find-helper") is None  # one is named: ask their hours first


def test_a_helper_whose_hours_are_known_comes_to_what_is_foreseen():
    story = leak_service(taught()).leaving("Fri 12:00").state("delirium", "Tue 09:00").helper()
    story._add("visits", Visit("v", at("Fri 18:00"), "made", True, "A nurse"))
    person, helper = story.chart.learners
    evenings = (at("Fri 12:00"), at("Fri+1 12:00"), True)
    story.chart = replace(story.chart, learners=(person, replace(helper, exceptions=(evenings,))))
    assert planned(story).reach.best == ""
    found = move(story, "helper")
    assert found.result == WITH_NURSING and words(found.reason) == "Have helper there whenever it is taught."


def test_an_extra_change_only_with_good_skin_and_only_as_an_option():
    story = taught().leaving("Wed 18:00")
    assert move(story, "extra") is None  # nothing is known of the skin
    story.finds("Mon 10:00", "s person Mon 11 10:00", "nurse", skin=(("head", "good"), ("feet", "good")))
    found = move(story, "extra")
    assert found.agree and found.at == at("Tue 13:00")
    story.finds("Mon 20:00", "later", "nurse", skin=(("head", "wet-raw"),))
    assert move(story, "extra") is None


@pytest.mark.parametrize(("last", "tried"), [("Mon 11:00", "Tue 11:00"), ("Mon 11:30", "Tue 11:30")])
def test_an_extra_change_stands_at_least_a_day_after_the_last(last, tried):
    story = taught().leaving("Wed 18:00").care("change", last)
    story.finds(last, "f", "nurse", skin=(("head", "good"),))
    assert move(story, "extra", "Mon 20:00").at == at(tried)


def test_nobody_is_woken_and_no_move_stands_at_night():
    seen = set()
    for now in ("Mon 23:10", "Tue 03:40", "Tue 12:00", "Tue 19:30"):
        story = taught().leaving("Wed 18:00")
        story.finds("Mon 10:00", "s person Mon 11 10:00", "nurse", skin=(("head", "good"),))
        for found in planned(story, now).moves:
            seen.add(found.code)
            assert 7 <= found.at.hour <= 21
    assert seen


def test_moves_that_another_beats_on_cost_and_day_are_not_shown():
    story = taught().leaving("Wed 18:00")
    story.finds("Mon 10:00", "s person Mon 11 10:00", "nurse", skin=(("head", "good"),))
    found = planned(story).moves
    assert [one.cost for one in found] == sorted(one.cost for one in found)
    for one in found:
        assert not any(
            other is not one and other.result == one.result and other.cost <= one.cost and other.at < one.at
            for other in found
        )


def test_nothing_is_moved_where_the_best_is_reached_or_a_facility_takes_over():
    assert planned(books(taught(), "Thu 10:00", may_teach=True)).moves == ()
    story = changes_helped("Tue 18:00")
    story.chart = replace(story.chart, goes_to="facility")
    found = planned(story)
    assert found.moves == () and words(found.said).startswith("Bound for a care facility: its nurses take over.")
