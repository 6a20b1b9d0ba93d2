"""The blank practice form: the rows and words of the screen, one side, nothing set beforehand."""

import pytest
from django.urls import reverse

from teaching.education.practice_form import PracticeForm
from teaching.papers.blank_practice import BlankPractice
from teaching.papers.blank_practice_sheets import blank_practice_pdf
from teaching.rules.vocabulary import BONDY
from tests.education.conftest import at_night, signed_in, ward  # noqa: F401
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.papers.skilled import NOW, SKILLS


def form(skill):
    return BlankPractice(skill, "Heron Ward (made up)", "Wed 13 May 2026 13:40", "Edda Marsh")


@pytest.fixture(scope="module", params=SKILLS, ids=lambda skill: skill.code)
def printed(request):
    return request.param, blank_practice_pdf(form(request.param))


def test_it_says_word_for_word_what_it_said(printed):
    skill, pdf = printed
    as_golden(f"blank-practice-{skill.code}.txt", pdf)
    assert len(words(pdf)) == 1 and clipped(pdf) == []


def test_it_is_tagged_with_language_and_title(printed):
    skill, pdf = printed
    language, title, found = tagging(pdf)
    assert (language, title) == ("en-GB", f"Blank practice form, {skill.title}, Heron Ward (made up)")
    assert {"/H1", "/H2", "/Table", "/TH"} <= found


def test_rows_levels_and_settings_are_the_screens_in_its_order(printed):
    skill, pdf = printed
    screen, paper = PracticeForm(skill=skill, zone="Europe/London", now=NOW), form(skill)
    assert [row.label for row in screen.rows] == [row.title for row in paper.skill.rows]
    for row in screen.rows:
        assert row.field.choices == [(code, level.name) for code, level in paper.levels]
    assert [said for _, said in screen.fields["setting"].choices] == [said.capitalize() for said in paper.settings]
    assert screen.fields["words"].label in words(pdf)[0] and screen.fields["words"].help_text in words(pdf)[0]


def test_every_level_stands_in_every_row_and_is_said_in_words(printed):
    skill, pdf = printed
    (said,) = words(pdf)
    assert said.count("5 4 3 2 1 X") == len(skill.rows)
    for level in BONDY.values():
        assert level.words in said


@pytest.mark.parametrize(("who", "status"), [("amber", 200), ("edda", 200), ("sorrel", 200), ("linden", 403),
                                             ("ashby", 403), ("wilma", 404)])  # fmt: skip
def test_for_those_who_observe(ward, signed_in, who, status):  # noqa: F811
    assert signed_in(who).get(reverse("blank-practice", args=[ward.unit.uid, "change"])).status_code == status


def test_a_skill_that_nobody_published_has_no_form(ward, signed_in):  # noqa: F811
    assert signed_in("amber").get(reverse("blank-practice", args=[ward.unit.uid, "knots"])).status_code == 404


def test_the_way_there_stands_on_the_nurses_page_for_those_who_observe(ward, signed_in):  # noqa: F811
    address = reverse("blank-practice", args=[ward.unit.uid, "change"]).encode()
    own = reverse("own-skills", args=[ward.unit.uid])
    assert address in signed_in("amber").get(own).content
    assert address not in signed_in("ashby").get(own).content
