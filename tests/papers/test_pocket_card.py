"""The pocket card: may do, may teach, not yet, until when; as big as a bank card, to cut out."""

import io
from dataclasses import replace
from datetime import timedelta

import pdfplumber
import pytest

from teaching.papers.competence_record_sheets import pocket_card_pdf
from teaching.papers.pocket_card import CardLine, pocket_card
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.papers.skilled import AMBER, ASHBY, BASIL, BOWEL, EDDA, NOW, POLICY, SKILLS, UROSTOMY, WARD, granted

POINTS_A_MM = 72 / 25.4
CARD_MM = (85.6, 53.98)  # ISO/IEC 7810, ID-1


def card(nurse, at=NOW, unit="Heron Ward (made up)"):
    return pocket_card(nurse=nurse, skills=SKILLS, policy=POLICY, ward=WARD, now=at, unit=unit)


def drawn(pdf):
    """The dashed line's outer bounds and every word with its place, in mm from the top left of the sheet."""
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        page = opened.pages[0]
        lines = [one for one in page.lines + page.rects + page.curves if one["bottom"] < page.height * 0.8]
        edge = [min(one["x0"] for one in lines), min(one["top"] for one in lines),
                max(one["x1"] for one in lines), max(one["bottom"] for one in lines)]  # fmt: skip
        found = [(one["text"], one["x0"], one["top"], one["x1"], one["bottom"]) for one in page.extract_words()]
    return [at / POINTS_A_MM for at in edge], [(text, *(at / POINTS_A_MM for at in place)) for text, *place in found]


def test_what_may_be_done_stands_first_then_not_yet():
    assert card(AMBER).lines == (
        CardLine("May do", "a pouch change", "until 22 Jun 2026"),
        CardLine("May teach", "bowel stoma", "until 23 Apr 2028"),
        CardLine("Not yet", "teach, urostomy", ""),
    )


def test_from_the_day_after_the_last_it_says_lapsed():
    last = NOW + timedelta(days=40)
    assert card(AMBER, last).lines[0].until == "until 22 Jun 2026"
    late = card(AMBER, last + timedelta(seconds=1)).lines
    assert CardLine("Not yet", "do a pouch change", "lapsed") in late


def test_a_card_carried_about_does_not_say_withdrawn():
    assert "withdrawn" not in " ".join(words(pocket_card_pdf(card(AMBER))))


@pytest.mark.parametrize("nurse", [BASIL, AMBER, ASHBY, EDDA], ids=lambda nurse: nurse.name.split()[0].lower())
def test_it_says_word_for_word_what_it_said(nurse):
    pdf = pocket_card_pdf(card(nurse))
    as_golden(f"pocket-card-{nurse.name.split()[0].lower()}.txt", pdf)
    assert len(words(pdf)) == 1 and clipped(pdf) == []


def test_it_is_as_big_as_a_bank_card():
    (left, top, right, bottom), _ = drawn(pocket_card_pdf(card(BASIL)))
    assert (right - left, bottom - top) == pytest.approx(CARD_MM, abs=0.4)


def test_the_longest_names_stay_inside_and_lie_on_no_other_word():
    holds = (granted(1, 5, 700), granted(1, 5, 700, BOWEL), granted(1, 5, 700, UROSTOMY))
    full = replace(ASHBY, grade="registered", name="Ashby " + "Crane-Featherstonehaugh-" * 2 + "Nightingale",
                   sign_offs=holds)  # fmt: skip
    pdf = pocket_card_pdf(card(full, unit="Colorectal and Urology Surgical Ward Eleven East (made up)"))
    (left, top, right, bottom), placed = drawn(pdf)
    inside = [one for one in placed if top < one[2] < bottom]
    said = " ".join(one[0] for one in inside)
    assert said.count("until") == 3 and "Nightingale" in said and said.endswith("who teaches this shift.")
    for text, x0, _, x1, y1 in inside:
        assert left + 2 < x0 and x1 < right - 2 and y1 < bottom - 1, text
    rows = sorted(inside, key=lambda one: one[2])
    for text, x0, y0, x1, y1 in rows:
        clash = [other[0] for other in rows if other[0] is not text and x0 < other[3] - 0.1 and other[1] < x1 - 0.1
                 and y0 < other[4] - 0.9 and other[2] < y1 - 0.9]  # fmt: skip
        assert clash == [], text


def test_it_is_tagged_with_language_and_title():
    language, title, found = tagging(pocket_card_pdf(card(BASIL)))
    assert (language, title) == ("en-GB", "Pocket card, Basil Thorne, 13 May 2026")
    assert "/H1" in found
