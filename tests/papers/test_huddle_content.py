"""The huddle list's content: who is read first, and what is said of each person."""

from datetime import timedelta

import pytest

from teaching.papers.huddle import huddle_content
from teaching.rules.board import Begun, Due
from teaching.rules.huddle import huddle_line, when
from tests.papers.ward import NOW, WARD, caution, hours, row


def listed(*rows):
    return huddle_content(
        unit="Heron Ward (made up)", ward=WARD, rows=rows, now=NOW, printed_by="Amber Oakley", policy="1a2b3c"
    )


def line(**more):
    return huddle_line(row(1, **more), WARD, NOW)


def test_cautions_are_read_first_open_before_told_then_what_is_due_soonest():
    told_today = row(1, mrn="told today", cautions=(caution(told=NOW - hours(1)),))
    open_today = row(2, mrn="open today", cautions=(caution(),))
    told_now = row(3, mrn="told now", cautions=(caution(list="call_now", told=NOW - hours(1)),))
    open_now = row(4, mrn="open now", cautions=(caution(list="call_now"),))
    settled = row(5, mrn="settled", cautions=(caution(settled=NOW),), due=(Due("change", NOW + hours(9)),))
    soon = row(6, mrn="soon", due=(Due("change", NOW + hours(1)),))
    paused = row(7, mrn="paused", paused=True)
    nothing_due = row(8, mrn="nothing due", due=())
    paper = listed(paused, nothing_due, settled, soon, told_today, open_today, told_now, open_now)
    assert [line.number for line in paper.lines] == [
        "open now", "told now", "open today", "told today", "soon", "settled", "nothing due", "paused",
    ]  # fmt: skip
    assert paper.call_now == 2
    assert paper.count == "8 people"


def test_an_open_caution_says_since_when_and_that_nobody_was_told():
    (said,) = line(cautions=(caution("Stoma dark, dusky or pale", list="call_now"),)).cautions
    assert (said.list, said.words) == ("Call now", "Stoma dark, dusky or pale")
    assert said.state == "open since today 07:40, nobody told yet"


def test_a_told_caution_says_whom_when_the_answer_and_that_it_is_not_settled():
    told = caution(
        told=NOW - hours(5), told_whom="Dr Nettle", answer="drink plan", look_again_at=NOW + hours(18)
    )
    assert line(cautions=(told,)).cautions[0].state == (
        "told today 08:40 (Dr Nettle), answer: drink plan, look again tomorrow 07:40, not settled"
    )
    unanswered = caution(told=NOW - hours(5))
    assert "no answer written" in line(cautions=(unanswered,)).cautions[0].state


def test_settled_and_withdrawn_cautions_are_not_said():
    assert line(cautions=(caution(settled=NOW), caution(withdrawn=True))).cautions == ()


def test_what_was_due_is_said_as_past():
    assert line(due=(Due("change", NOW - hours(2)),)).due == ("Pouch change was due today 11:40",)
    assert line(due=(Due("change", NOW + hours(20), "left"),)).due == ("Pouch change, left, due tomorrow 09:40",)


def test_a_paused_stay_prompts_nothing_and_keeps_its_cautions():
    said = line(paused=True, cautions=(caution(),), helper="Hugo, husband learning too")
    assert (said.sentence, said.aim, said.due) == ("Teaching is paused.", "", ())
    assert len(said.cautions) == 1


def test_the_sentence_says_due_then_standing_then_one_aim_then_who_then_what_is_not_signed():
    said = line(
        due=(Due("change", NOW + hours(20)),), standing="Nothing shown yet.", aim="Choose when to empty",
        helper="Hugo, husband learning too", begun=(Begun("Basil Thorne", NOW - hours(11)),),
    )  # fmt: skip
    assert said.sentence == (
        "Pouch change due tomorrow 09:40. Nothing shown yet. Teach: Choose when to empty. "
        "Hugo, husband learning too. Begun today 02:40 by Basil Thorne, not signed."
    )


@pytest.mark.parametrize(
    ("away", "said"),
    [
        (timedelta(0), "today 13:40"),
        (timedelta(hours=10, minutes=19), "today 23:59"),
        (timedelta(hours=10, minutes=20), "tomorrow 00:00"),
        (timedelta(days=-1), "yesterday 13:40"),
        (timedelta(days=5), "Mon 13:40"),
        (timedelta(days=6), "Tue 19 May 13:40"),  # at night the shift still carries the name of the day before
        (timedelta(days=-6), "Thu 13:40"),
        (timedelta(days=7), "Wed 20 May 13:40"),
        (timedelta(days=-7), "Wed 6 May 13:40"),
    ],
)
def test_a_moment_is_said_on_the_wards_own_clock(away, said):
    assert when(NOW + away, WARD, NOW) == said


def test_the_day_of_surgery_is_day_0_and_two_stomas_are_named():
    from tests.papers.ward import full_ward

    lines = {line.number: line.stoma for line in listed(*full_ward()).lines}
    assert lines["000-018"] == "day 0, ileostomy"
    assert lines["000-009"] == "day 8, right urostomy and left colostomy"
    assert lines["000-027"] == "before surgery, colostomy"


def test_nobody_on_the_unit_is_said():
    assert listed().lines == ()
    assert listed().count == "0 people"


def test_no_day_planned_and_a_day_gone_by():
    assert line(planned_at=None).leaving == "no day planned"
    assert line(planned_at=NOW - hours(3)).leaving == "was planned today 10:40"


def test_paused_says_that_alone_and_not_why_nobody_is_taught():
    assert line(paused=True, waits="Call first: a dark stoma. Teaching waits.").sentence == "Teaching is paused."
    assert line(paused=True, waits="Call first: a dark stoma. Teaching waits.").waits == ""
