"""The blank session form: the unit's own rows in the screen's words, one sheet both sides."""

import pytest

from teaching.papers.blank_session import KINDS, blank_session_content
from teaching.papers.transfer_sheets import blank_session_pdf
from teaching.rules.checklist import applicable
from teaching.rules.vocabulary import DECISIONS, KIT_ITEMS, LEVELS, PHASES
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.rules.story import CHECKLIST, Story, at


def form(kind):
    return blank_session_content(
        kind=kind, unit="Heron Ward (made up)", checklist=CHECKLIST, printed_at="Wed 13 May 2026 13:40",
        printed_by="Amber Oakley",
    )  # fmt: skip


@pytest.fixture(scope="module", params=list(KINDS))
def printed(request):
    return request.param, blank_session_pdf(form(request.param))


def test_it_says_word_for_word_what_it_said(printed):
    kind, paper = printed
    as_golden(f"blank-session-{kind}.txt", paper)


def test_it_is_one_sheet_both_sides_tagged_and_nothing_is_clipped(printed):
    kind, paper = printed
    assert len(words(paper)) == 2
    assert clipped(paper) == []
    language, title, found = tagging(paper)
    assert (language, title) == ("en-GB", f"Blank session form, {KINDS[kind]}, Heron Ward (made up)")
    assert {"/H1", "/H2", "/Table", "/TH", "/Figure"} <= found


def test_the_foot_stands_on_both_sides(printed):
    for number, page in enumerate(words(printed[1]), 1):
        assert "checklist stoma-care 1" in page and f"page {number} of 2" in page


def test_levels_and_decisions_have_the_screens_words(printed):
    front = words(printed[1])[0]
    for answer in (*LEVELS, *DECISIONS):
        assert answer.words in front
    assert front.count("All of this alone, nobody spoke") == len(PHASES)
    assert "09" not in front.split("Ring one answer")[0]


@pytest.mark.parametrize(
    ("form_kind", "stoma", "kit"),
    [
        ("bowel", "ileostomy", {}),
        ("bowel", "ileostomy", {"pieces": "one", "opening": "mouldable", "items": frozenset(KIT_ITEMS)}),
        ("bowel", "colostomy", {"closure": "closed", "outlet": ""}),
        ("urostomy", "urostomy", {"outlet": "tap", "items": frozenset(KIT_ITEMS)}),
    ],
)
def test_every_row_the_screen_would_show_is_on_the_form(form_kind, stoma, kit):
    """Whatever the person wears, the recorder's rows of a change and of emptying stand on the paper."""
    story = Story(stoma, **kit).state("rod", "Mon 00:00").state("measured", "Mon 00:00")
    rows = {row.code for row in applicable(story.chart, "s", at("Tue 00:00")) if not row.item.topic}
    paper = form(form_kind)
    on_paper = {row.code for group in (*paper.front, *paper.back) for row in group.rows}
    meeting = {"meet-look", "meet-touch", "meet-spare"}
    assert rows - meeting <= on_paper


def test_no_row_of_the_other_kind_is_on_it():
    bowel = {row.code for group in (*form("bowel").front, *form("bowel").back) for row in group.rows}
    urine = {row.code for group in (*form("urostomy").front, *form("urostomy").back) for row in group.rows}
    assert not {code for code in bowel if code.startswith(("ue-", "nd-"))}
    assert not {code for code in urine if code.startswith(("em-", "cl-", "ho-"))}


def test_another_kind_is_no_form():
    with pytest.raises(KeyError):
        form("knee")
