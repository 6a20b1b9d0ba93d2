"""What one look at the record answers: what is due, what stands out, what to teach next, and until when it holds."""

from dataclasses import replace

import pytest
from story import CHECKLIST, STOMA_NURSE, Story, at

from teaching.rules.assess import assess
from teaching.rules.facts import Caution, Rating
from teaching.rules.policy import DEFAULT
from teaching.rules.reasons import words
from teaching.rules.standing import TICK
from teaching.rules.vocabulary import INDEPENDENCE_STATES

EMPTYING = "em-when em-open em-wipe em-close em-hands"


def look(story, when, policy=DEFAULT):
    return assess(story.chart, policy, at(when))


def aims(story, when):
    return [aim.code for aim in look(story, when).aims]


def said(story, when):
    return [reason.code for reason in look(story, when).stands_out]


def alone_twice(codes=EMPTYING, **kit):
    return Story(**kit).shows(codes, "06", "Mon 10:00").shows(codes, "06", "Mon 15:00")


def test_every_rated_row_stands_somewhere_with_its_reasons():
    assessment = look(Story(), "Mon 12:00")
    assert {one.state for one in assessment.standings} <= set(INDEPENDENCE_STATES)
    assert all(one.held or one.reasons for one in assessment.standings)
    assert all(words(reason) for one in assessment.standings for reason in one.reasons)


def test_each_procedure_is_concluded_at_its_lowest_essential_row():
    story = alone_twice("em-when em-open em-close em-hands").shows("em-wipe", "04", "Mon 15:00")
    emptying = next(one for one in look(story, "Mon 16:00").conclusions if one.procedure == "emptying")
    assert (emptying.lowest.code, emptying.state, emptying.held, emptying.essential) == ("em-wipe", "learning", 4, 5)
    whole = next(one for one in look(alone_twice(), "Mon 16:00").conclusions if one.procedure == "emptying")
    assert (whole.state, whole.held) == ("independent", 5)


def test_at_most_three_aims_the_hard_minimum_first_in_the_order_of_teaching():
    assert aims(Story(), "Mon 12:00") == ["em-open", "em-close", "t-call"]


def test_what_was_lost_comes_before_the_hard_minimum():
    reopened = alone_twice("em-wipe").new_kit("Mon 18:00", outlet="clip")
    assert aims(reopened, "Mon 19:00")[0] == "em-wipe"
    slipped = alone_twice("em-hands").shows("em-hands", "03", "Mon 18:00")
    assert aims(slipped, "Mon 19:00")[0] == "em-hands"


def test_out_of_date_is_not_lost():
    assert aims(alone_twice("em-hands"), "Thu 10:00")[0] == "em-open"


def test_an_aim_says_why_and_what_to_ask_back():
    aim = look(alone_twice("em-open"), "Mon 16:00").aims[0]
    assert (aim.code, [reason.code for reason in aim.reasons]) == ("em-close", ["not-started", "alone-needed"])
    assert aim.row.item.ask_back == CHECKLIST.by_code["em-close"].ask_back != ""


@pytest.mark.parametrize(
    ("state", "taught"),
    [("opened", True), ("expected", True), ("resumed", True), ("reopened", True), ("moved", True),
     ("paused", False), ("stopped", False), ("left", False), ("cancelled", False)],
)  # fmt: skip
def test_nothing_to_teach_while_paused_stopped_or_left(state, taught):
    story = Story()
    story.chart = replace(story.chart, state=state)
    assert bool(aims(story, "Mon 12:00")) == taught
    assert (state in said(story, "Mon 12:00")) != taught


def test_nothing_to_teach_the_person_while_delirium_lasts():
    story = Story().state("delirium", "Mon 08:00", "Tue 08:00")
    steps = [code for code in aims(story, "Mon 12:00") if not code.startswith("t-")]
    assert steps == []
    assert "em-open" in aims(story, "Tue 09:00")


def test_due_from_the_last_change_of_any_kind():
    story = Story(interval_hours=72).shows("off-peel", "01", "Mon 10:00").care("change", "Tue 03:00", wear_end="leak")
    (change,) = look(story, "Tue 12:00").changes
    assert (change.last, change.due) == (at("Tue 03:00"), at("Fri 03:00"))
    story.shows("off-peel", "04", "Wed 09:00", reported=True)
    assert look(story, "Wed 12:00").changes[0].last == at("Wed 09:00")


@pytest.mark.parametrize(
    ("code", "answer", "more"),
    [
        ("off-peel", "88", {}),  # not attempted
        ("off-peel", "06", {"practice": True}),  # nothing worn was changed
        ("prep-kit", "06", {}),  # broken off while things were set out
        ("em-open", "06", {}),
        ("a-row-of-another-version", "06", {}),
    ],
)
def test_what_is_no_change_moves_no_due_time(code, answer, more):
    story = Story(interval_hours=72).care("change", "Mon 10:00").shows(code, answer, "Tue 10:00", **more)
    assert look(story, "Tue 12:00").changes[0].last == at("Mon 10:00")


def test_why_the_next_change_is_not_known():
    assert said(Story(), "Mon 12:00") == ["no-change"]
    assert said(Story().care("change", "Mon 10:00"), "Mon 12:00") == ["no-interval"]
    bare = Story()
    bare.chart = replace(bare.chart, kits=())
    assert said(bare, "Mon 12:00") == ["no-kit"]


def test_overdue_stands_out_from_the_moment_after_it_was_due():
    story = Story(interval_hours=48).care("change", "Mon 10:00")
    assert said(story, "Wed 10:00") == []
    assert look(story, "Wed 10:00").holds_until == at("Wed 10:00") + TICK
    assert [one.code for one in assess(story.chart, DEFAULT, at("Wed 10:00") + TICK).stands_out] == ["overdue"]


def test_what_stands_out():
    story = Story(interval_hours=72).needs("interpreter").state("delirium", "Mon 08:00")
    story.care("change", "Mon 10:00", wear_end="leak")
    assert said(story, "Mon 12:00") == ["state", "last-leak", "interpreter"]


def test_a_language_to_teach_in_that_is_not_the_wards_stands_out():
    story = Story(interval_hours=72).care("change", "Mon 10:00")
    assert said(story, "Mon 12:00") == []
    story.chart = replace(story.chart, language="pl")
    assert said(story, "Mon 12:00") == ["interpreter"]


def dark(told=None, sign="call_now", **more):
    story = Story(interval_hours=72).care("change", "Mon 10:00")
    return story._add("cautions", Caution("c", "dark-stoma", sign, "Stoma dark", at("Mon 11:00"), told=told, **more))


def test_while_a_call_now_caution_is_open_nothing_is_taught_and_it_says_why():
    found = look(dark(), "Mon 12:00")
    assert found.aims == () and found.waits == found.stands_out[0]
    assert words(found.waits) == "Call first: Stoma dark. Teaching waits."
    assert look(dark(), "Mon 10:30").aims, "before it was seen"


def test_once_told_or_withdrawn_teaching_goes_on_and_a_caution_for_today_never_stopped_it():
    told = dark(told=at("Mon 12:00"))
    assert (look(told, "Mon 11:59").aims, look(told, "Mon 11:59").holds_until) == ((), at("Mon 12:00"))
    for story in (told, dark(withdrawn=True), dark(sign="today")):
        found = look(story, "Mon 12:00")
        assert found.aims and found.waits is None and found.stands_out == ()


def test_a_caution_that_was_settled_and_never_told_still_waits_for_the_call():
    assert look(dark(settled=at("Mon 11:30")), "Mon 12:00").aims == ()


def test_it_holds_until_the_first_row_goes_out_of_date():
    story = alone_twice("em-open").shows("em-hands", "06", "Mon 11:00").shows("em-hands", "06", "Mon 15:30")
    assert look(story, "Mon 16:00").holds_until == at("Wed 15:00") + TICK


def test_two_stomas_are_both_judged_and_named():
    story = Story("urostomy", outlet="tap").stoma("left", "colostomy")
    assert {one.stoma for one in look(story, "Mon 12:00").conclusions} == {"s", "left"}


def test_a_helper_who_has_not_agreed_and_never_took_part_is_not_judged():
    assert {one.learner for one in look(Story().helper(agreed=False), "Mon 12:00").standings} == {"person"}
    assert {one.learner for one in look(Story().helper(), "Mon 12:00").standings} == {"person", "helper"}


def test_a_rating_of_a_row_of_another_version_breaks_nothing():
    story = Story()
    old = Rating("s", "old-row", "person", "06", at("Mon 10:00"), "e", STOMA_NURSE)
    story.chart = replace(story.chart, ratings=(old,))
    assert look(story, "Mon 12:00").standings == look(Story(), "Mon 12:00").standings


def test_it_names_the_policy_and_the_rules_it_came_from():
    local = DEFAULT.with_overrides({"spacing": 6})
    assert look(Story(), "Mon 12:00", local).policy_version == local.version != DEFAULT.version
    assert look(Story(), "Mon 12:00").rules_version


def test_a_local_policy_is_followed():
    story = Story().shows("em-open", "06", "Mon 10:00")
    once = next(one for one in look(story, "Mon 12:00", DEFAULT.with_overrides({"emptying_streak": 1})).standings
                if one.code == "em-open")  # fmt: skip
    assert once.state == "independent"
    assert len(look(Story(), "Mon 12:00", DEFAULT.with_overrides({"aims": 1})).aims) == 1
