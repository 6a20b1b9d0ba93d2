"""What a handover says, and what it does not: nothing that the record does not hold."""

from dataclasses import dataclass, replace

import pytest

from teaching.rules.board import Begun
from teaching.rules.facts import Caution, Learner
from teaching.rules.handover.helper_hours import week_words
from teaching.rules.handover.steps import HELP, NOT_RATED
from teaching.rules.reasons import Reason
from teaching.rules.vocabulary import LEVELS, NOT_RATED_CODES, UNAIDED
from tests.papers.people import BY_DAY, PHONES, full_person, handed, lines, person, two_stomas
from tests.rules.story import STUDENT, at


@pytest.fixture(scope="module")
def paper():
    return handed(full_person())


def test_the_situation_says_stoma_day_and_leaving(paper):
    said = lines(paper, "S")
    assert said["Stoma"] == ["end ileostomy, right; day 4."]
    assert said["Leaving"] == ["Fri 12:00, home (planned)."]
    assert paper.at == "Wed 13 May 2026 13:40"


def test_a_told_caution_stands_with_its_state_and_no_line_says_there_is_none(paper):
    (caution,) = paper.cautions
    assert (caution.list, caution.call_now) == ("Stoma nurse today", False)
    assert "told today 08:10 (Dr Nettle), answer: repeat total tomorrow" in caution.state
    assert "not settled" in caution.state
    assert "Cautions" not in lines(paper, "S")
    assert lines(handed(person()), "S")["Cautions"] == ["none open, none told and waiting."]


def test_the_background_says_operation_needs_helper_kit_size_and_pouch(paper):
    said = lines(paper, "B")
    assert said["Operation"] == ["Sat 9 May."]
    assert said["Needs"] == ["teach in English; cannot see it well."]
    assert said["Helper"] == [
        "Hugo Fernhollow, husband; the person said yes Mon 00:00, the helper said yes Mon 00:00; lives in; "
        "there at all hours."
    ]
    assert said["Wears"] == [
        "two-piece, flat, cut to fit, drainable with strip outlet; powder; ring, strip or paste; "
        "stoma 32 by 30 mm, measured yesterday 10:00; opening 34 by 33 mm."
    ]
    assert said["Pouch"] == ["on since yesterday 10:00 (27 h); the one before ended: planned; due Fri 10:00."]


def test_alone_says_how_often_when_and_by_whom_it_was_seen(paper):
    said = lines(paper, "A")
    assert said["Emptying"] == [
        "independent, all 5 steps held. Last seen yesterday 06:20 by Stoma Nurse, stoma nurse."
    ]
    seen = "Alone twice (Mon 18:10 by Ward Nurse; then): "
    assert any(each.startswith(seen + "Choose when to empty; Lift the end") for each in said[""])
    plain = lines(handed(person().shows(BY_DAY, "06", "Mon 18:10").shows(BY_DAY, "06", "Tue 06:20")), "A")
    assert "Alone twice (Mon 18:10 by Ward Nurse; then): all of it." in plain[""]


def test_lower_levels_carry_their_words_their_reason_and_their_mark(paper):
    said = lines(paper, "A")[""]
    assert lines(paper, "A")["Pouch change"] == [
        "1 of 19 steps held. Last seen yesterday 10:00 by Stoma Nurse, stoma nurse."
    ]
    assert (
        "A nurse had to cue, or steady with a touching hand (04), then: "
        "Shut the outlet before the pouch goes on; Put it on from below with the stoma in the middle." in said
    )
    assert any(each.startswith("A nurse did less than half of the work (03), drowsy, then: Cut") for each in said)
    marks = [line.mark for part in paper.parts for line in part.lines if line.mark]
    assert {"06", "04", "03", "07", "right", "told", "own_words", "not_yet"} <= set(marks)


def test_a_decision_is_judged_not_done_alone(paper):
    said = lines(paper, "A")[""]
    assert any(each.startswith("Judged rightly once") and each.endswith("Decide on powder.") for each in said)


def test_every_level_and_every_not_rated_answer_has_its_words():
    assert set(HELP) == {level.code for level in LEVELS} - {UNAIDED} | {"wrong"}
    assert set(NOT_RATED) == set(NOT_RATED_CODES)


def test_topics_in_own_words_not_yet_told_and_not_told_are_four_things(paper):
    said = lines(paper, "A")[""]
    assert "In own words: Whom to ring, by day and by night; A leak means a change now (yesterday 12:00)." in said
    assert "Asked, not yet in own words: Losing too much water and salt (today 09:00)." in said
    assert "Told, ask back: Signs that need someone now, or today (today 09:00)." in said
    assert any(each.startswith("Not told yet: A night on your own") for each in said)


def test_skin_is_said_by_region_and_who_noticed(paper):
    said = lines(paper, "A")
    assert said["Skin"] == [
        "towards the feet: wet or raw; towards the head and the person's own left and the person's own right: "
        "same as the skin near it; noticed by the learner (yesterday 10:00)."
    ]
    assert said["Output"] == ["1,550 mL in the 24 hours to today 07:00, from the fluid chart."]


def test_what_is_asked_names_aims_who_is_there_looking_again_and_whom_to_call(paper):
    said = lines(paper, "R")
    assert len(said["Teach"]) == 3
    assert said["Next change"] == ["due Fri 10:00; by their hours Hugo Fernhollow, husband can be there."]
    assert said["Booked"] == [
        "Fri 10:00, pouch change; with Ada Fernhollow and Hugo Fernhollow, husband; teacher Sorrel Vane; aim: cut."
    ]
    assert said["Look again"] == ["tomorrow 07:00: Output 1500 mL or more in 24 hours: ask for a fluid plan."]
    visit = "a nurse comes Sat 10:00 to change the pouch, accepted by District team (made up)."
    assert said["After leaving"] == [visit]
    assert said["Call"] == ["Stoma nurses (made up) 00000 000 100 (Mon to Fri 08:00-16:00)."]
    assert "Ileostomy silent" in said["Call now if"][0] and "No urine" not in said["Call now if"][0]


def test_the_copied_text_is_plain_whole_and_without_words_to_ask_back(paper):
    first, who, caution, *parts = paper.text.split("\n")
    assert first == "Stoma teaching handover, Wed 13 May 2026 13:40"
    assert who == "Ada Fernhollow, born 2 Mar 1958, number 000-A1, bed A1. Day 4, ileostomy."
    assert caution.startswith("STOMA NURSE TODAY: Output 1500 mL")
    assert [part[:3] for part in parts] == ["S: ", "B: ", "A: ", "R: "]
    assert "Ask back:" not in paper.text and "<" not in paper.text


def test_nothing_known_is_said_as_not_known():
    bare = person()
    bare.chart = replace(bare.chart, kits=(), surgery_at=None, planned_at=None)
    said = handed(bare, phones=())
    background = lines(said, "B")
    assert background["Operation"] == ["its day is not recorded."]
    assert background["Wears"] == ["no pouch is written down yet."]
    assert background["Pouch"] == ["on since: not known, no change is recorded; so when the next is due is not known."]
    assert background["Helper"] == ["none is named."]
    assert lines(said, "S")["Leaving"] == ["no day planned."]
    assert lines(said, "A")["Skin"] == lines(said, "A")["Looked like"] == ["not known, nothing is written down."]
    assert lines(said, "R")["Next change"] == ["when it is due is not known."]
    assert lines(said, "R")["Call"] == ["no number is written down for this unit."]


def test_nobody_written_down_as_a_learner_is_said():
    bare = person()
    bare.chart = replace(bare.chart, learners=())
    said = handed(bare)
    assert lines(said, "A")["Not known"] == ["the person is not written down as a learner."]
    assert lines(said, "R")["Teach"] == ["nothing is asked of anybody with what is written down now."]


def test_declined_everything_is_declined_and_never_zero():
    said = lines(handed(person().shows(BY_DAY, "07", "Mon 10:00").shows(BY_DAY, "07", "Tue 10:00")), "A")
    assert said["Emptying"] == ["none of 5 steps held yet. Last seen yesterday 10:00 by Ward Nurse."]
    assert "Declined (07), then: all of it." in said[""]
    assert not any("Not yet" in each for each in said[""])


def test_paused_keeps_cautions_and_facts_and_asks_for_no_teaching():
    story = full_person()
    story.chart = replace(story.chart, state="paused")
    said = handed(story)
    assert lines(said, "S")["Stands out"][0].startswith("Teaching is paused.")
    assert lines(said, "R")["Teach"] == ["nothing while this lasts."]
    assert len(said.cautions) == 1
    assert lines(said, "R")["Next change"] == ["due Fri 10:00; by their hours Hugo Fernhollow, husband can be there."]


def test_two_stomas_are_told_apart_in_every_line():
    said = handed(two_stomas())
    assert [each[:12] for each in lines(said, "S")["Stoma"]] == ["end urostomy", "end colostom"]
    assert {"Wears, right", "Wears, left", "Pouch, right", "Pouch, left"} <= set(lines(said, "B"))
    assert {"Emptying (urostomy) (right)", "Emptying (left)", "Skin, right", "Skin, left"} <= set(lines(said, "A"))
    assert [each.split(",")[0] for each in lines(said, "R")["Next change"]] == ["right stoma", "left stoma"]


def test_told_is_not_shown():
    said = lines(handed(person().shows(BY_DAY, "06", "Tue 10:00", reported=True)), "A")
    assert said["Emptying"] == ["none of 5 steps held yet."]
    assert any(each.startswith("Told to be alone, not seen, yesterday 10:00 by Ward Nurse") for each in said[""])


def test_practice_that_counts_for_nothing_says_so():
    """`look-stoma` takes no practice: checklist-1, practice_share none."""
    said = lines(handed(person().shows("look-stoma", "06", "Tue 10:00", practice=True)), "A")
    assert any("as practice" in each and "does not count: Look at the stoma" in each for each in said[""])


def test_a_students_showing_names_the_student():
    said = lines(handed(person().shows(BY_DAY, "06", "Tue 10:00", by=STUDENT)), "A")["Emptying"]
    assert said == ["none of 5 steps held yet. Last seen yesterday 10:00 by Student (student, not co-signed)."]


def test_a_draft_and_an_amended_entry_are_said_in_words():
    said = handed(person(), begun=(Begun("Basil Thorne", at("Wed 02:10")),), amended_at=at("Tue 08:00"))
    assert said.standing == (
        "Draft: begun today 02:10 by Basil Thorne, not signed. It is not counted here.",
        "Amended: an entry was last corrected or taken back yesterday 08:00.",
    )
    assert all(sentence in said.text for sentence in said.standing)


@dataclass
class Ready:
    result: str
    gaps: tuple[Reason, ...]


def test_readiness_is_said_only_where_it_is_given():
    assert "Readiness" not in lines(handed(person()), "S")
    given = Ready("not yet", (Reason("declined"),))
    assert lines(handed(person(), readiness=given), "S")["Readiness"] == ["not yet. Declined so far."]


def test_of_many_gaps_the_first_three_are_said_and_the_rest_counted():
    gaps = tuple(Reason("while", state=state) for state in ("a", "b", "c", "d", "e"))
    said = lines(handed(person(), readiness=Ready("not yet", gaps)), "S")["Readiness"]
    assert said[0].endswith("while there is c. And 2 more.")


def test_a_settled_caution_is_not_said_and_an_open_one_says_nobody_was_told():
    settled = Caution("c", "gap", "today", "A gap", at("Mon 10:00"), told=at("Mon 11:00"), settled=at("Tue 10:00"))
    opened = Caution("d", "dark-stoma", "call_now", "Stoma dark, dusky or pale", at("Wed 13:00"))
    said = handed(person()._add("cautions", settled, opened))
    assert [caution.words for caution in said.cautions] == ["Stoma dark, dusky or pale"]
    assert said.call_now and "nobody told yet" in said.cautions[0].state
    assert lines(said, "R")["Teach"] == ["Call first: Stoma dark, dusky or pale. Teaching waits."]


def test_a_yes_that_is_missing_or_taken_back_is_said():
    story = person()
    story.chart = replace(story.chart, learners=(*story.chart.learners, Learner("h", "helper", "Hugo", "husband")))
    (said,) = lines(handed(story), "B")["Helper"]
    assert "the person was not asked yet, the helper was not asked yet; hours not known" in said


@pytest.mark.parametrize(
    ("week", "said"),
    [
        ("0" * 168, "at no hour"),
        ("1" * 168, "at all hours"),
        (("0" * 18 + "1" * 6) * 5 + "1" * 48, "Mon to Fri 18:00-24:00, Sat and Sun all day"),
        (("1" * 7 + "0" * 11 + "1" * 6) + "0" * 144, "Mon 00:00-07:00 and 18:00-24:00"),
    ],
)
def test_a_week_is_said_by_days_that_are_alike(week, said):
    assert week_words(week) == said


def test_phones_are_those_of_the_unit():
    assert PHONES[0][1] in lines(handed(person()), "R")["Call"][0]


def test_a_number_that_nobody_can_ring_is_not_read_out():
    wrong = (("Night desk", "ask the porter", ""),)
    assert "porter" not in lines(handed(person(), phones=(*PHONES, *wrong)), "R")["Call"][0]
    assert "no number is written down for this unit" in lines(handed(person(), phones=wrong), "R")["Call"][0]
