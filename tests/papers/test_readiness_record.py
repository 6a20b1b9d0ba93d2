"""The readiness record: its content line by line, and the paper word for word, tagged, in black and white."""

import io
import json
from dataclasses import replace
from datetime import timedelta

import pdfplumber
import pytest

from teaching.papers.readiness_record import MEANING, SUPPORTS
from teaching.papers.readiness_sheets import readiness_pdf
from tests.papers.homegoers import NOW, PEOPLE, at, ileostomy, record_of, two_stomas, urostomy
from tests.papers.reading import as_golden, clipped, tagging, words


@pytest.fixture(scope="module", params=PEOPLE)
def kind(request):
    return request.param


@pytest.fixture(scope="module")
def paper(kind):
    return readiness_pdf(record_of(PEOPLE[kind]()).signed("Piers Hollow", "discharge planner", "Wed 13 May 2026 18:02"))


def test_it_says_word_for_word_what_it_said(kind):
    """Versions aside: they move with every line of the policy."""
    record = replace(record_of(PEOPLE[kind]()), policy="1a2b3c", versions="checklist, rules and readiness")
    signed = record.signed("Piers Hollow", "discharge planner", "Wed 13 May 2026 18:02")
    as_golden(f"readiness-{kind.replace(' ', '-')}.txt", readiness_pdf(signed))


def test_it_is_tagged_with_language_and_title(paper):
    language, title, found = tagging(paper)
    assert (language, title) == ("en-GB", "Readiness record, Wed 13 May 2026 18:00")
    assert {"/H1", "/H2", "/Table", "/TH", "/TD", "/Figure"} <= found


def test_every_page_names_the_person_and_counts_the_pages(paper):
    pages = words(paper)
    assert 2 <= len(pages) <= 5
    for number, page in enumerate(pages, 1):
        assert "Ada Fernhollow, 000-A1. Readiness record" in page
        assert f"page {number} of {len(pages)}" in page


def test_nothing_is_cut_off_and_nothing_is_coloured(paper):
    assert clipped(paper) == []
    with pdfplumber.open(io.BytesIO(paper)) as opened:
        used = {tuple(one["non_stroking_color"] or ()) for page in opened.pages for one in (*page.chars, *page.rects)}
    assert {shade for colour in used for shade in colour} <= {0, 1}


def test_it_can_be_kept_as_it_is_said(kind):
    content = record_of(PEOPLE[kind]()).plain
    assert json.loads(json.dumps(content)) == json.loads(json.dumps(record_of(PEOPLE[kind]()).plain))
    assert content["signature"] is None


@pytest.mark.parametrize(
    ("name", "result"),
    [("colostomy", "Self-caring"), ("ileostomy", "With a named helper"), ("urostomy", "Not yet"),
     ("two stomas", "Not yet")],
)  # fmt: skip
def test_the_result_is_the_rules_own(name, result):
    assert record_of(PEOPLE[name]()).result == result


def rows(record, procedure, whose="Ada Fernhollow"):
    return {row.code: row for group in record.groups if group.procedure == procedure and group.whose.startswith(whose)
            for row in group.rows}  # fmt: skip


def test_a_held_row_names_the_two_showings_it_rests_on():
    story = ileostomy()
    row = rows(record_of(story), "emptying")["em-wipe"]
    assert (row.state, row.held, row.needed) == ("independent", True, "")
    assert [one.when for one in row.showings] == ["Tue 12 May 10:00", "Wed 13 May 10:00"]
    assert {one.by for one in row.showings} == {"Stoma Nurse, stoma nurse"}
    assert [one.answer for one in row.showings] == ["06", "06"]
    events = {rating.event for rating in story.chart.ratings if rating.code == "em-wipe" and rating.learner == "person"}
    assert {one.event for one in row.showings} == events


def test_practice_is_marked_and_a_row_not_held_says_what_is_wanting():
    story = urostomy()
    story.shows("cut", "06", "Tue 15:00", practice=True)
    row = rows(record_of(story), "change")["cut"]
    assert not row.held and row.needed
    assert [one.practice for one in row.showings] == [True]
    assert "practice" in " ".join(words(readiness_pdf(record_of(story))))


def test_topics_say_when_they_were_told_and_when_said_back():
    row = rows(record_of(ileostomy()), "topics")["t-fluid"]
    assert row.state == "explained"
    assert [one.when for one in row.showings] == ["Mon 11 May 08:00", "Tue 12 May 09:00"]


def test_each_stoma_is_judged_and_named_by_itself():
    record = record_of(two_stomas())
    named = [one.name for one in record.stomas]
    assert named == ["Right stoma: end urostomy, right", "Left stoma: end colostomy, left"]
    assert all("by itself: " in one.said for one in record.stomas)
    assert any("left stoma" in gap.words for gap in record.gaps)


def test_gaps_say_who_could_close_them_and_by_when():
    (gap,) = [one for one in record_of(urostomy()).gaps if "first change" in one.words]
    assert any(way.who == "whoever plans the leaving" and way.by == "by Fri 15 May 09:00" for way in gap.ways)


def test_cautions_stand_with_their_state():
    (caution,) = record_of(ileostomy()).cautions
    assert caution.list == "Stoma nurse today"
    assert caution.state == "told Tue 12 May 10:00, no answer written, not settled"


def test_moments_are_dates_never_tomorrow(paper):
    said = " ".join(words(paper)).lower()
    for word in ("today 1", "tomorrow", "yesterday"):
        assert word not in said


def test_a_plan_is_said_where_one_was_made():
    record = record_of(ileostomy(), plan=("One more alone; Thursday 10:00 is the only change left.",))
    assert "Thursday 10:00 is the only change left." in words(readiness_pdf(record))[0]


def test_the_signature_says_who_in_which_role_when_and_what_it_means(paper):
    said = " ".join(words(paper))
    assert "Piers Hollow, discharge planner, Wed 13 May 2026 18:02" in said
    assert MEANING in said and SUPPORTS in said
    assert "draft" not in said.lower()


def test_it_is_judged_for_the_moment_it_says():
    assert record_of(ileostomy(), now=at("Wed 20:00")).judged == "Wed 13 May 2026 20:00"
    assert record_of(ileostomy(), now=NOW + timedelta(minutes=1)).plain != record_of(ileostomy()).plain
