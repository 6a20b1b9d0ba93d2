"""The grid: by state, shape and word; in the order of the alphabet; the same queries for three nurses and for many."""

import re

import pytest
from django.urls import reverse

from teaching.record.staff import grant_role, register_clinician, withdraw_sign_off
from tests.bedside.reading import words
from tests.bedside.ward import HOUSE
from tests.skills import observe


@pytest.fixture
def grid(signed_in, address):
    return lambda who="edda": signed_in(who).get(address("nurses-by-skill"))


def row_of(page, name):
    """The words of each cell of one nurse."""
    html = page.content.decode()
    found = next(one for one in re.findall(r"<tr[^>]*>.*?</tr>", html, re.S) if name in one)
    cells = re.findall(r"<td.*?</td>", found, re.S)
    return [" ".join(re.sub(r"<[^>]+>", " ", cell).split()) for cell in cells]


def test_each_cell_says_the_state_in_a_word_and_both_clocks(ward, ada, stoma, grid):
    ward.teach(ada, stoma, 20)
    page = grid()
    until = "until 29 Nov 2026"
    assert row_of(page, "Amber Oakley") == [
        f"signed off {until}", f"signed off {until} last taught 12 May 2026", f"signed off {until}",
    ]
    assert row_of(page, "Basil Thorne") == ["ready for sign-off", "not begun", "not begun"]


def test_each_cell_has_its_shape_too(grid):
    html = grid().content.decode()
    for state in ("signed-off", "ready-for-sign-off", "not-begun"):
        assert f'<use href="#skill-{state}"/>' in html and f'<symbol id="skill-{state}"' in html


def test_a_skill_not_asked_of_a_grade_is_no_cell(grid):
    assert row_of(grid(), "Ashby Crane") == ["not begun", "not asked of this grade", "not asked of this grade"]


def test_by_the_alphabet_and_nothing_counted_out_for_one_nurse(grid):
    names = re.findall(r'<th scope="row"[^>]*>\s*<a [^>]+>([^<]+)</a>', grid().content.decode())
    assert names == ["Amber Oakley", "Ashby Crane", "Basil Thorne", "Edda Marsh", "Sorrel Vane"]


def test_what_can_be_done_next_is_named_with_the_way_there(grid, address):
    page = grid()
    assert "Basil Thorne, ready for sign-off: do a change." in words(page)
    assert f'href="{address("nurse-skills", "basil")}"' in page.content.decode()


def test_the_first_week_says_what_opens_the_door(ward, signed_in):
    page = words(signed_in("linden").get(reverse("nurses-by-skill", args=[ward.unit.uid])))
    assert "Do a change: 2 signed off now." in page
    for name in ("amber", "sorrel"):
        withdraw_sign_off(
            actor=ward.staff["linden"], nurse=ward.staff[name].clinician, skill="change", reason="Moved on."
        )
    page = words(signed_in("linden").get(reverse("nurses-by-skill", args=[ward.unit.uid])))
    assert "Do a change: nobody is signed off now. The unit lead accepts a certificate from elsewhere" in page


def test_an_educator_lands_on_the_grid(signed_in, address):
    assert signed_in("edda").get("/")["Location"] == address("nurses-by-skill")


def test_the_link_skills_leads_each_to_their_own(signed_in, address):
    assert signed_in("edda").get(reverse("skills"))["Location"] == address("nurses-by-skill")
    assert signed_in("basil").get(reverse("skills"))["Location"] == address("own-skills")


@pytest.mark.parametrize("more", [0, 6])
def test_the_grid_costs_the_same_queries_for_few_and_for_many(ward, signed_in, address, more, assert_selects):
    for number in range(more):
        clinician = register_clinician(actor=HOUSE, name=f"Nurse {number}", grade="registered")
        grant_role(actor=HOUSE, clinician=clinician, role="ward-nurse", unit=ward.unit)
    if more:
        observe(ward.staff["amber"], ward.staff["basil"], ward.unit, "teach-bowel")
    client = signed_in("edda")
    client.get(address("nurses-by-skill"))  # the versions of the skills are read once a process
    with assert_selects(16):
        client.get(address("nurses-by-skill"))
