"""Our colours against the contrast formula of WCAG 2.2 (criteria 1.4.3 and 1.4.11), read from the stylesheet.

Oracle pair at the standard's own threshold of 4.5: #767676 on white passes with 4.54, #777777 fails with
4.48. Day text needs 4.5, lines that carry meaning 3; at night every text colour is held to 7 (AAA).
"""

import re
from pathlib import Path

import pytest

CSS = Path(__file__).resolve().parents[2] / "teaching" / "static" / "teaching" / "css"
TEXT = ("ink", "quiet", "act", "call", "today", "good")
GROUNDS = ("paper", "card")


def luminance(colour):
    """Relative luminance of "#RRGGBB" (WCAG 2.2, definitions)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def colours(sheet):
    """{name: "#RRGGBB"} of the custom properties of one stylesheet."""
    return dict(re.findall(r"--([a-z-]+):\s*(#[0-9A-F]{6});", (CSS / sheet).read_text()))


def test_the_formula_gives_the_oracle_pair():
    assert round(contrast("#767676", "#FFFFFF"), 2) == 4.54
    assert round(contrast("#777777", "#FFFFFF"), 2) == 4.48
    assert round(contrast("#000000", "#FFFFFF"), 2) == 21


def test_day_and_night_name_the_same_colours():
    day, night = colours("day.css"), colours("night.css")
    assert set(day) == set(night) == {*TEXT, *GROUNDS, "line", "on-act"}


@pytest.mark.parametrize(("sheet", "least"), [("day.css", 4.5), ("night.css", 7.0)])
def test_text_can_be_read_on_paper_and_on_card(sheet, least):
    found = colours(sheet)
    measured = {(name, on): contrast(found[name], found[on]) for name in TEXT for on in GROUNDS}
    measured["on-act", "act"] = contrast(found["on-act"], found["act"])
    assert not {pair: round(ratio, 2) for pair, ratio in measured.items() if ratio < least}


@pytest.mark.parametrize("sheet", ["day.css", "night.css"])
def test_lines_can_be_seen_on_paper_and_on_card(sheet):
    found = colours(sheet)
    assert not {on for on in GROUNDS if contrast(found["line"], found[on]) < 3}


def test_no_other_stylesheet_brings_a_colour_of_its_own():
    literal = re.compile(r"#[0-9A-Fa-f]{3,8}\b(?!\w*[;{]?\s*\{)|\brgba?\(|\bhsla?\(")
    for sheet in CSS.glob("*.css"):
        if sheet.name not in ("day.css", "night.css"):
            assert not literal.findall(sheet.read_text()), sheet.name
