"""The handover as it leaves the printer: one page a person, an index that is right, tagged, word for word."""

import io
import re
from dataclasses import replace

import pdfplumber
import pikepdf
import pytest

from teaching.papers.handover import handover_content
from teaching.papers.handover_sheets import handover_pdf
from teaching.rules.ward import Ward
from tests.papers.people import NOW, WHO, full_person, handed, person, two_stomas
from tests.papers.reading import as_golden, clipped, elements, tagging, words
from tests.rules.story import at

LONG = "Wilhelmina-Konstantina Nightingale-Featherstonehaugh-Quillfeather"


def printed(*people, whole_shift=False, unit="Heron Ward (made up)"):
    return handover_pdf(
        handover_content(
            unit=unit, ward=Ward(), people=people, now=at(NOW), printed_by="Amber Oakley", policy="1a2b3c",
            whole_shift=whole_shift,
        )
    )  # fmt: skip


def named(name, bed, story=None):
    return handed(story or person(), who=replace(WHO, name=name, bed=bed, number=f"000-{bed}"))


@pytest.fixture(scope="module")
def full():
    return printed(handed(full_person()))


def test_it_says_word_for_word_what_it_said(full):
    as_golden("handover.txt", full)


def test_everything_a_handover_can_say_of_one_stoma_fits_one_page(full):
    assert len(words(full)) == 1
    assert clipped(full) == []


def test_it_is_tagged_with_language_and_a_title_that_names_nobody(full):
    language, title, found = tagging(full)
    assert language == "en-GB"
    assert title == "Handover of one person, Heron Ward (made up), Wed 13 May 2026 13:40"
    assert {"/H1", "/H2", "/L", "/LI", "/Figure"} <= found


def test_each_mark_is_a_figure_with_its_words(full):
    with pikepdf.open(io.BytesIO(full)) as opened:
        said = {str(each.Alt) for each in elements(opened.Root.StructTreeRoot) if each.S == "/Figure"}
    assert "06 Alone. You watched and said nothing" in said
    assert "04 You had to cue, or steady with a touching hand" in said


@pytest.mark.parametrize(
    "story",
    [
        pytest.param(two_stomas, id="two stomas"),
        pytest.param(person, id="nothing shown yet"),
        pytest.param(lambda: person().shows("em-when em-open em-wipe em-close em-hands", "07", "Tue 10:00"),
                     id="declined everything"),
    ],
)  # fmt: skip
def test_one_person_takes_one_page_with_nothing_clipped(story):
    paper = printed(handed(story()))
    assert len(words(paper)) == 1
    assert clipped(paper) == []


def test_no_kit_no_learner_and_paused_each_take_one_page():
    for changed in ({"kits": ()}, {"learners": ()}, {"state": "paused"}):
        story = full_person() if "state" in changed else person()
        story.chart = replace(story.chart, **changed)
        paper = printed(handed(story))
        assert len(words(paper)) == 1 and clipped(paper) == []


def test_long_names_of_people_helpers_and_units_are_not_clipped():
    story = full_person()
    person_, helper = story.chart.learners
    story.chart = replace(story.chart, learners=(person_, replace(helper, name=LONG, relation="neighbour and friend")))
    paper = printed(named(LONG, "A1", story), whole_shift=True, unit="Heron Ward for people after surgery (made up)")
    assert clipped(paper) == []
    assert sum(page.replace("- ", "-").count(LONG) for page in words(paper)) >= 3


def much_to_say(cautions):
    story = full_person()
    for number in range(9):
        for row, level in {"prep-kit": "01", "prep-hands": "02", "off-peel": "03", "press": "05"}.items():
            story.shows(row, level, f"Wed {number:02}:00", event=f"night {number}", learner="Hugo")
    return story._add("cautions", *(replace(story.chart.cautions[0], key=f"c{n}") for n in range(cautions)))


def sizes(pdf):
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        found = opened.pages[0].extract_words(extra_attrs=["size"])
    return {word["size"] for word in found if word["text"] == "Leaving:"}


def test_a_person_with_very_much_to_say_is_printed_smaller_and_stays_on_one_page(full):
    paper = printed(handed(much_to_say(0)))
    assert len(words(paper)) == 1
    assert clipped(paper) == []
    assert max(sizes(paper)) < max(sizes(full)) < 10.5
    assert max(sizes(printed(handed(person())))) == pytest.approx(10.5)


def test_what_no_page_can_hold_flows_on_under_the_same_name_and_the_index_stays_right():
    people = [named("Bram Quillfeather", "A2", much_to_say(30)), named("Cora Larkmead", "A3")]
    index, one, *two, last = words(printed(*people, whole_shift=True))
    assert two and all("Bram Quillfeather, 000-A2. Handover." in page for page in (one, *two))
    assert "Cora Larkmead, 000-A3. Handover." in last
    assert re.search(rf"Bram Quillfeather 000-A2 .* 2 A3 Cora Larkmead 000-A3 .* {len(two) + 3} ", index)


def test_a_whole_shift_has_an_index_with_the_right_pages():
    people = [
        named("Bram Quillfeather", "A2"), named("Cora Larkmead", "A10", full_person()), named("Dov Appleyard", "B1"),
    ]  # fmt: skip
    index, *pages = words(printed(*people, whole_shift=True))
    assert "3 people" in index and "Handover: Heron Ward (made up)" in index
    for each in people:
        line = rf"{each.who.bed} {each.who.name} {each.who.number} .*? (\d+)(?= [AB]\d|\s*Handover)"
        (number,) = re.findall(line, index)
        assert pages[int(number) - 2].startswith(each.who.name)


def test_each_page_carries_name_number_page_and_who_printed_it():
    people = [named("Bram Quillfeather", "A2"), named("Cora Larkmead", "A3", full_person())]
    _, *pages = words(printed(*people, whole_shift=True))
    for place, (page, each) in enumerate(zip(pages, people, strict=True), 2):
        assert f"{each.who.name}, {each.who.number}. Handover." in page
        assert "Printed Wed 13 May 2026 13:40 by Amber Oakley. Policy version 1a2b3c." in page
        assert f"page {place} of 3" in page
        assert "Given by" in page and "Read back by" in page


def test_an_empty_unit_says_so():
    (page,) = words(printed(whole_shift=True))
    assert "Nobody with a stoma is on this unit now." in page


def test_a_call_now_caution_shows_in_the_index():
    from teaching.rules.facts import Caution

    dark = Caution("d", "dark-stoma", "call_now", "Stoma dark, dusky or pale", at("Wed 13:00"))
    index, page = words(printed(named("Bram Quillfeather", "A2", person()._add("cautions", dark)), whole_shift=True))
    assert "1 to call about now" in index and "Call now" in index
    assert page.index("Stoma dark, dusky or pale") < page.index("Situation")
