"""The size page: outline and bars read back from the PDF in mm, which way round, how long it holds, when none."""

import io
from datetime import timedelta

import pdfplumber
import pytest

from teaching.papers.size_page import no_size_page, size_page
from teaching.papers.size_page_sheets import size_page_pdf
from tests.papers.homegoers import NOW, PERSON, colostomy, ileostomy, two_stomas
from tests.papers.reading import clipped, tagging, words
from tests.papers.reading_level import grade
from tests.papers.test_outline import CLOSE, POINT, measured, the_opening


def drawn(story, now=NOW, stoma="s"):
    return size_page(
        story.chart, story.chart.stoma(stoma), story.policy, now, person=PERSON, made_by="Amber Oakley",
        made_at="Wed 13 May 2026 18:00",
    )  # fmt: skip


def why_not(story, now=NOW, stoma="s"):
    return no_size_page(story.chart, story.chart.stoma(stoma), story.policy, now)


def sized(wide, high, **kit):
    story = ileostomy()
    story.finds("Wed 12:00", "again", "learner", width_mm=wide, height_mm=high)
    return story.new_kit("Wed 08:00", **kit) if kit else story


@pytest.fixture(scope="module")
def pdf():
    return size_page_pdf(drawn(ileostomy()))


@pytest.mark.parametrize(("wide", "high"), [(32.0, 30.0), (18.5, 27.0), (60.0, 45.0), (98.0, 108.0)])
def test_the_hole_and_the_bars_are_true_to_size_on_the_page_itself(wide, high):
    """The stoma and the least clearance of 2 mm on each axis, within 0.05 mm; 50 and 100 mm bars."""
    story = sized(wide, high)
    with pdfplumber.open(io.BytesIO(size_page_pdf(drawn(story)))) as opened:
        (page,) = opened.pages
        curves, lines = page.curves, page.lines
    found = measured(the_opening(curves))
    assert found == (pytest.approx(wide + 2, abs=CLOSE), pytest.approx(high + 2, abs=CLOSE))
    lengths = sorted((line["x1"] - line["x0"]) * POINT for line in lines)
    assert [length for length in lengths if 40 < length < 110] == [
        pytest.approx(50, abs=CLOSE), pytest.approx(100, abs=CLOSE)]


def test_the_head_end_is_above_and_own_left_on_the_left(pdf):
    """Laid on the backing it is looked at from behind: head end up, left and right change places."""
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        (page,) = opened.pages
        hole, found = the_opening(page.curves), page.extract_words()
    (head,) = [word for word in found if word["text"] == "Head"]
    assert head["bottom"] < hole["top"]
    (left,) = [word for word in found if word["text"] == "left"]
    (right,) = [word for word in found if word["text"] == "right"]
    assert left["x1"] < hole["x0"] < hole["x1"] < right["x0"]


def test_it_says_when_it_was_measured_and_for_how_long_it_holds(pdf):
    (said,) = words(pdf)
    assert "34 mm wide and 32 mm high" in said
    assert "Measured on Wednesday 13 May. Do not use after Wednesday 20 May." in said
    assert "This side up on the backing" in said and "Head end" in said
    assert "Ada Fernhollow, 000-A1." in said and "page 1 of 1" in said


def test_it_is_tagged_large_enough_and_plain(pdf):
    language, title, found = tagging(pdf)
    assert (language, title) == ("en-GB", "Size page, measured Wednesday 13 May")
    assert "/Figure" in found
    assert clipped(pdf) == []
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        assert min(char["size"] for char in opened.pages[0].chars) >= 13.99
    steps = "Hold a ruler to the bars. If they are not right, do not use this page.\nCut out the shape.\n" \
            "Lay it on the backing, this side up.\nDraw round it.\nThen cut on your line and smooth the edge."
    assert grade(steps) <= 6


def test_it_holds_seven_days_and_not_a_moment_longer():
    story = ileostomy()
    last = story.chart.findings[-1].at + timedelta(days=7)
    assert why_not(story, last) == ""
    assert why_not(story, last + timedelta(microseconds=1)) == "Measured more than 7 days ago: measure again first."


@pytest.mark.parametrize(
    ("story", "sentence"),
    [
        (colostomy, "not cut at home"),
        (lambda: sized(32.0, None), "Not measured on both axes"),
        (lambda: ileostomy().new_kit("Wed 08:00", opening="mouldable"), "not cut at home"),
        (lambda: ileostomy().state("rod", "Mon 00:00"), "With a rod, or a gap"),
        (lambda: sized(48.5, 30.0, cut_limit_mm=50.0), "would pass the 50 mm"),
        (lambda: sized(149.0, 30.0), "cannot be drawn"),
    ],
)
def test_where_none_can_be_drawn_a_sentence_says_why(story, sentence):
    assert sentence in why_not(story())


def test_an_opening_at_the_very_limit_is_drawn():
    assert why_not(sized(48.0, 30.0, cut_limit_mm=50.0)) == ""


def test_of_two_stomas_each_has_its_own():
    story = two_stomas()
    story.finds("Wed 09:00", "size", "learner", width_mm=40.0, height_mm=36.0)
    assert drawn(story).stoma == "right stoma (urostomy)"
    assert "Not measured" in why_not(story, stoma="left")
