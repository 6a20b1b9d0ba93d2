"""Leaving against the plan on paper: a page for the record, a short sheet in plain words for the person."""

import io
from dataclasses import replace
from datetime import timedelta

import pdfplumber
import pytest

from teaching.papers.against_plan_sheets import against_plan_pdf
from tests.papers.homegoers import PEOPLE, Going, at, ileostomy, leaving_of, two_stomas, urostomy
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.papers.reading_level import grade
from tests.papers.test_take_home import UNAVOIDABLE


@pytest.fixture(scope="module", params=PEOPLE)
def kind(request):
    return request.param


@pytest.fixture(scope="module")
def pdf(kind):
    return against_plan_pdf(replace(leaving_of(PEOPLE[kind]()), policy="1a2b3c"))


def test_it_says_word_for_word_what_it_said(kind, pdf):
    as_golden(f"against-plan-{kind.replace(' ', '-')}.txt", pdf)


def test_one_page_for_the_record_and_at_most_two_for_the_person(pdf):
    pages = words(pdf)
    assert 2 <= len(pages) <= 3
    assert "Signature" in pages[0] and "Ring now" not in pages[0]
    assert all("Ada Fernhollow, 000-A1" in page for page in pages)
    assert clipped(pdf) == []


def test_the_persons_sheet_is_in_14_point_and_plain(kind, pdf):
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        foot = 780  # points from the top: below stands the line for the record
        sizes = [char["size"] for page in opened.pages[1:] for char in page.chars if char["top"] < foot]
    assert min(sizes) >= 13.99
    text = "\n".join(line.words for part in leaving_of(PEOPLE[kind]()).parts for line in part.lines)
    assert grade(text) <= 6 and grade(text, UNAVOIDABLE) <= 6


def test_it_is_tagged_with_language_and_title(pdf):
    language, title, found = tagging(pdf)
    assert (language, title) == ("en-GB", "Leaving against the plan, Wed 13 May 2026 18:02")
    assert {"/H1", "/H2", "/Table"} <= found


def test_what_is_open_stands_first_and_the_short_sheet_has_its_own_parts():
    paper = leaving_of(urostomy())
    assert paper.lacking[0] == "Nobody does the first change after leaving, due Sat 16 May 09:00."
    assert [part.key for part in paper.parts] == ["now", "today", "empty", "leak"]


def overdue():
    """Changed on Monday, every 60 hours, so due Wednesday noon; the leaving had been planned for Sunday."""
    story = Going("ileostomy", interval_hours=60).holds("pouch", "topics").care("change", "Mon 00:00")
    return story.leaving("Sun 12:00").all_else()


def test_an_overdue_pouch_is_changed_before_they_go_whatever_day_was_planned():
    paper = leaving_of(overdue(), now=at("Wed 18:20"))
    assert paper.planned == "Planned was Sun 17 May 2026 12:00."
    assert paper.lacking[0] == "Nobody does the first change after leaving, due Wed 13 May 19:00."
    assert paper.changes == ("Was due Wed 13 May 2026 12:00: to be changed before leaving.",)
    first, sheet, *_ = words(against_plan_pdf(paper))
    assert "Was due Wed 13 May 2026 12:00: to be changed before leaving." in first
    assert "My next change: now, before you go. Then every 2 to 3 days." in sheet


@pytest.mark.parametrize(
    ("signed", "due"), [("Wed 17:59", "18:00"), ("Wed 18:00", "19:00"), ("Wed 18:01", "19:00")]
)
def test_signed_on_the_exact_hour_an_overdue_pouch_is_open_as_at_any_other_minute(signed, due):
    paper = leaving_of(overdue(), now=at(signed))
    assert paper.lacking[0] == f"Nobody does the first change after leaving, due Wed 13 May {due}."


def test_what_is_open_is_judged_for_leaving_now_and_not_for_the_planned_day():
    """The first contact was arranged for the planned day, four days on: for leaving now it comes too late."""
    story = overdue().leaving("Sun 12:00").all_else(contact=timedelta(hours=2))
    assert story.ready("Wed 18:20").leaving == at("Sun 12:00")
    assert "within 72 hours" in " ".join(leaving_of(story, now=at("Wed 18:20")).lacking)


ACCEPTS = {"accepted_by": "Senna Holt", "name": "Larch House", **dict.fromkeys(
    ("is_nurse", "emptying", "leaks", "changes", "day_and_night"), True)}


def test_whoever_was_bound_for_a_facility_goes_home_instead_and_that_is_what_is_judged():
    """Its nurses accepted: none of them is there at home, so what nobody does there stands open."""
    home = leaving_of(urostomy()).lacking
    bound = urostomy().to("facility").arranged("facility", **ACCEPTS)
    assert bound.ready().words == "care arranged"
    assert "Nobody does the first change after leaving, due Sat 16 May 09:00." in home
    assert leaving_of(bound).lacking == home


def test_the_next_change_is_a_nurses_visit_where_one_comes_in_time():
    paper = leaving_of(urostomy().visit("Fri 10:00"))
    assert paper.changes == ("Due Sat 16 May 2026 09:00; a nurse comes to change it Fri 15 May 2026 10:00.",)
    assert paper.next[0].when == "Friday 15 May, 10:00, with a nurse"
    too_late = leaving_of(urostomy().visit("Sat 11:00"))
    assert too_late.next[0].when == "Saturday 16 May, in the morning"


def test_every_caution_that_is_not_settled_stands_on_the_first_page_with_its_state():
    story = ileostomy()  # told on Tuesday, not settled
    story.caution("dark-stoma", "Wed 17:00", words="Stoma dark, dusky or pale")
    story.caution("gap", "Mon 09:00", told="Mon 10:00", settled="Tue 09:00", words="A gap at the edge of the stoma")
    told = replace(story.chart.cautions[0], told_whom="Dr Nettle", answer="repeat total on Thursday")
    story.chart = replace(story.chart, cautions=(told, *story.chart.cautions[1:]))
    first, *others = words(against_plan_pdf(leaving_of(story)))
    assert "Call now: Stoma dark, dusky or pale: open since Wed 13 May 17:00, nobody told yet." in first
    assert (
        "Stoma nurse today: Output 1500 mL or more in 24 hours: told Tue 12 May 10:00 (Dr Nettle), "
        "answer: repeat total on Thursday, not settled."
    ) in first
    assert "A gap at the edge of the stoma" not in first
    assert "nobody told yet" not in " ".join(others)


def test_where_to_go_is_the_units_own_place_or_to_be_asked():
    sheet = words(against_plan_pdf(leaving_of(urostomy())))[1]
    assert "If no one answers, go to the ward on Elm Road." in sheet
    assert "Ask your nurse where before you go home." in words(against_plan_pdf(leaving_of(urostomy(), slots={})))[1]


def test_with_no_caution_it_says_so():
    assert "Cautions None open, none told and waiting." in words(against_plan_pdf(leaving_of(urostomy())))[0]


def test_where_nobody_knows_when_the_next_change_is_a_line_is_left():
    story = urostomy()
    story.chart = replace(story.chart, care=())
    paper = leaving_of(story)
    assert paper.changes == ("When it is due is not known.",) and set(paper.next[0].when) == {"."}


def test_with_two_stomas_each_says_its_own_next_change():
    assert [one.which for one in leaving_of(two_stomas()).next] == ["Right stoma", "Left stoma"]


def test_with_no_number_arranged_the_one_given_is_said_everywhere():
    story = urostomy()
    (sheet,) = words(against_plan_pdf(leaving_of(story.all_else(but=("number", "leak-service")))))[1:]
    assert sheet.count("00000 000 200") == 3
    assert "hold a pad on it and ring 00000 000 200." in sheet


def test_one_day_of_kit_is_one_day():
    assert leaving_of(urostomy(), kit_days=1).kit.startswith("1 day. This is less")
    assert leaving_of(urostomy(), kit_days=0).kit.startswith("0 days. This is less")


def test_where_nothing_is_open_it_says_so():
    paper = replace(leaving_of(urostomy()), lacking=())
    assert "Nothing stands open." in words(against_plan_pdf(paper))[0]
