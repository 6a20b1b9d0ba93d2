"""The huddle list as it leaves the printer: one side, tagged, its own fonts inside, and word for word."""

import io
from pathlib import Path

import pdfplumber
import pikepdf
import pytest

from teaching.papers.huddle import huddle_content
from teaching.papers.sheets import huddle_pdf
from teaching.rules.huddle_cover import cover, planned_changes, soon
from teaching.rules.policy import DEFAULT
from tests.papers.ward import FAMILIES, NOW, WARD, caution, covers, full_ward, hours, row

GOLDEN = Path(__file__).parent / "golden" / "huddle-30.txt"
A4_POINTS = (595.28, 841.89)  # ISO 216: 210 x 297 mm


def printed(rows, covers=covers):
    return huddle_pdf(
        huddle_content(
            unit="Heron Ward (made up)", ward=WARD, rows=rows, now=NOW, printed_by="Amber Oakley",
            policy="1a2b3c", teaches=[("Basil Thorne", False), ("Amber Oakley", True)], covers=covers(rows),
            stoma_nurse=[("Sorrel Vane", NOW + hours(2), "stay-1"), ("Sorrel Vane", NOW + hours(1), "stay-4")]
            if rows else (),
        )
    )  # fmt: skip


@pytest.fixture(scope="module")
def paper():
    return printed(full_ward())


def text(pdf):
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        return "\n".join(page.extract_text() for page in opened.pages) + "\n"


def test_thirty_people_fit_one_side_of_a4(paper):
    with pikepdf.open(io.BytesIO(paper)) as pdf:
        assert len(pdf.pages) == 1
        assert [float(side) for side in pdf.pages[0].MediaBox[2:]] == pytest.approx(A4_POINTS, abs=0.02)


def test_they_fit_too_while_nobody_is_ticked():
    """Every change ahead then stands in the head of the list."""
    def nobody(rows):
        return cover(soon(planned_changes(rows, {}, WARD, NOW), DEFAULT, NOW), {}, {}, WARD, NOW)

    with pikepdf.open(io.BytesIO(printed(full_ward(), nobody))) as pdf:
        assert len(pdf.pages) == 1


def test_where_somebody_must_be_called_first_it_says_so_and_teaches_nothing():
    waits = "Call first: Stoma dark. Teaching waits."
    first = row(cautions=(caution("Stoma dark", list="call_now"),), aim="", waits=waits)
    said = " ".join(text(printed([first, row(4, aim="")])).split())
    assert "Call first: Stoma dark. Teaching waits." in said and "Teach:" not in said


def test_the_head_says_who_teaches_and_which_changes_nobody_does(paper):
    said = " ".join(text(paper).split())
    assert "Teaches this shift: Amber Oakley; Basil Thorne (not signed off) Shred after use" in said
    assert "Stoma nurse's times today: Sorrel Vane 14:40 A4, 15:40 A1" in said
    assert (
        "Changes with nobody ticked to teach: "
        "Wed late: A6; Wed night: B1; Thu late: B4; Fri early: B6, C1; Fri late: C2; Fri night: C3." in said
    )
    assert "Changes with nobody signed off among those ticked: Thu early: B2." in said


def cells(pdf):
    """The table's people as lines "bed | person | what is said | leaving", however its words were wrapped."""
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        page = opened.pages[0]
        heads = {word["text"]: word["x0"] - 1 for word in page.extract_words()[::-1]}
        edges = [heads[name] for name in ("Bed", "Person", "Cautions", "Leaving")]
        edges.append(max(rule["x1"] for rule in page.edges))
        columns = {"vertical_strategy": "explicit", "explicit_vertical_lines": edges, "text_x_tolerance": 1}
        rows = page.extract_table(columns)
    return "".join(" | ".join(" ".join(cell.split()).replace("- ", "-") for cell in row) + "\n" for row in rows[2:])


def test_it_says_word_for_word_what_it_said(paper):
    """After a change that is meant: delete the golden file, run once, read the new one, commit it."""
    if not GOLDEN.exists():
        GOLDEN.write_text(cells(paper), encoding="utf-8")
        pytest.fail(f"{GOLDEN.name} was not there and has been written: read it, then run again.")
    assert cells(paper) == GOLDEN.read_text(encoding="utf-8")


def test_every_person_stands_with_name_and_number(paper):
    said = text(paper).replace("\n", " ")
    for number, family in enumerate(FAMILIES.split(), 1):
        assert f"000-{number:03}" in said
        assert family.split("-")[-1] in said


def test_it_is_tagged_with_language_and_title(paper):
    with pikepdf.open(io.BytesIO(paper)) as pdf:
        root = pdf.Root
        assert "/StructTreeRoot" in root
        assert root.MarkInfo.Marked
        assert str(root.Lang) == "en-GB"
        assert root.ViewerPreferences.DisplayDocTitle
        assert str(pdf.docinfo["/Title"]).startswith("Huddle list, Heron Ward (made up)")
        with pdf.open_metadata() as said:
            assert said["pdfuaid:part"] == "1"


def test_every_cell_names_its_person_and_its_column(paper):
    """PDF/UA-1 (ISO 14289-1) 7.5: each cell leads to its headers, here by /Headers and /ID."""
    with pikepdf.open(io.BytesIO(paper)) as pdf:
        found = list(elements(pdf.Root.StructTreeRoot))
        assert [str(each.S) for each in found].count("/H1") == 1
        rows = [each for each in found if each.S == "/TR"]
        assert len(rows) == 31
        names = [cell.ID for cell in elements(rows[0]) if cell.S == "/TH"]
        for row in rows[1:]:
            cells = [cell for cell in elements(row) if cell.S in ("/TD", "/TH")]
            (person,) = (cell.ID for cell in cells if cell.S == "/TH")
            headers = [list(cell.A.Headers) for cell in cells if cell.S == "/TD"]
            assert [set(pair) for pair in headers] == [{names[column], person} for column in (0, 2, 3)]


def elements(element):
    """The structure elements under one, itself included, in reading order."""
    if isinstance(element, pikepdf.Dictionary) and "/S" in element:
        yield element
    kids = element.get("/K", ()) if isinstance(element, pikepdf.Dictionary) else ()
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary):
            yield from elements(kid)


def test_every_font_is_our_own_and_inside_the_file(paper):
    with pikepdf.open(io.BytesIO(paper)) as pdf:
        fonts = [font.DescendantFonts[0] for font in pdf.pages[0].Resources.Font.values()]
        names = {str(font.BaseFont) for font in fonts}
        assert fonts and all("/FontFile2" in font.FontDescriptor for font in fonts)
    assert {name.split("+")[1] for name in names} == {"Ward", "Ward-Bold"}


def test_it_is_black_and_white(paper):
    """Readable after a photocopy: no colour is used at all."""
    with pdfplumber.open(io.BytesIO(paper)) as opened:
        page = opened.pages[0]
        used = {tuple(each["non_stroking_color"] or ()) for each in (*page.chars, *page.rects)}
    assert all(len(set(colour)) <= 1 for colour in used), used
    assert {colour[0] for colour in used if colour} <= {0, 1}


def test_no_type_is_smaller_than_six_and_a_half_points(paper):
    with pdfplumber.open(io.BytesIO(paper)) as opened:
        assert min(char["size"] for char in opened.pages[0].chars) >= 6.5


def test_few_people_are_printed_larger(paper):
    def size(pdf):
        with pdfplumber.open(io.BytesIO(pdf)) as opened:
            words = opened.pages[0].extract_words(extra_attrs=["size"])
        return next(word["size"] for word in words if word["text"] == "Given")

    assert size(printed(full_ward()[:5])) > size(paper)


def test_more_than_a_side_flows_on_and_says_so():
    said = text(printed(full_ward() + full_ward()))
    assert "page 1 of 2" in said
    assert "page 2 of 2" in said


def test_an_empty_unit_says_so():
    said = text(printed(()))
    assert "Nobody with a stoma is on this unit now." in said and "Changes with nobody" not in said


def test_the_foot_says_who_when_policy_and_what_it_is_not(paper):
    said = " ".join(text(paper).split())
    assert "Shred after use" in said
    assert "Printed Wed 13 May 13:40 by Amber Oakley. Policy version 1a2b3c." in said
    assert "it does not replace a clinician's judgement" in said
    assert "page 1 of 1" in said
