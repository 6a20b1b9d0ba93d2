"""The look, as far as files show it: no inline style or script, no small type, our own forms."""

import re
from pathlib import Path

import pytest
from django.conf import settings
from django.template.loader import get_template

BASE = Path(__file__).resolve().parent.parent / "teaching"
PAGES = sorted(path for path in (BASE / "templates").rglob("*.html") if "papers" not in path.parts)
SHEETS = sorted((BASE / "static" / "teaching" / "css").glob("*.css"))
BASE_PX = 18  # html { font-size: 112.5% } of the browser's 16
LEAST_PX = 15


def name(path):
    return str(path.relative_to(BASE))


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_no_inline_style_script_or_handler(page):
    text = page.read_text()
    assert not re.findall(r"\sstyle\s*=|<style|\son[a-z]+\s*=\s*[\"']|javascript:", text)
    assert all("src=" in tag for tag in re.findall(r"<script[^>]*>", text))


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_every_page_can_be_read_by_django(page):
    get_template(str(page.relative_to(BASE / "templates")))


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_no_exclamation_marks_for_people(page):
    text = re.sub(r"<![^>]*>|\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}", "", page.read_text())
    assert "!" not in text


def sizes(text):
    """Every font size in px, worked out from rem, px or percent."""
    for value, unit in re.findall(r"font-size:\s*([\d.]+)(rem|px|%|pt|em)", text):
        yield (
            f"{value}{unit}",
            {"rem": BASE_PX, "em": BASE_PX, "px": 1, "%": 16 / 100}.get(unit, 96 / 72) * float(value),
        )


@pytest.mark.parametrize("sheet", SHEETS, ids=name)
def test_nothing_is_smaller_than_15_px(sheet):
    screen = re.sub(r"@media print \{.*?\n\}", "", sheet.read_text(), flags=re.S)
    assert not [said for said, px in sizes(screen) if px < LEAST_PX]


def test_the_base_size_is_18_px():
    assert "html { font-size: 112.5%;" in (BASE / "static/teaching/css/words.css").read_text()


@pytest.mark.parametrize("sheet", SHEETS, ids=name)
def test_focus_is_never_taken_away(sheet):
    taken = re.findall(r"([^{}]*)\{[^}]*outline:\s*(?:0|none)", sheet.read_text())
    # The input's own ring may go only where the whole answer row carries it.
    assert [selector.strip() for selector in taken] in ([], [".answer input:focus-visible"])


@pytest.mark.parametrize("sheet", SHEETS, ids=name)
def test_nothing_moves_or_blinks(sheet):
    assert not re.findall(r"animation|@keyframes|transition", sheet.read_text())


def test_every_page_stands_on_the_one_base():
    own = [page for page in PAGES if "ward" not in page.parts and page.name != "base.html"]
    whole = [page for page in own if re.search(r"<html|<body|\{% block content %\}", page.read_text())]
    assert whole
    assert not [name(page) for page in whole if '{% extends "teaching/' not in page.read_text()]


def test_forms_come_from_our_own_template_pack():
    assert settings.CRISPY_TEMPLATE_PACK == "ward"
    assert settings.CRISPY_ALLOWED_TEMPLATE_PACKS == ["ward"]


def test_the_typeface_comes_with_its_licence():
    fonts = BASE / "static" / "teaching" / "fonts"
    assert "SIL Open Font License, Version 1.1" in (fonts / "OFL.txt").read_text()
    named = set(
        re.findall(r'url\("\.\./fonts/([^"]+)"\)', (BASE / "static/teaching/css/fonts.css").read_text())
    )
    assert named and all((fonts / file).is_file() for file in named)
    assert named == {file.name for file in fonts.glob("*.woff*")}
