"""A nurse prints their own record and card; those who see everyone's skills print anybody's; a line in the trail."""

import pytest

from teaching.models import TrailLine
from teaching.record.nurses import nurses
from teaching.record.skill_history import skill_history
from teaching.record.skills import rate_oneself
from tests.education.conftest import address, at_night, signed_in, ward  # noqa: F401
from tests.papers.reading import words
from tests.skills import observe

OWN = {"own-record-paper": "competence-record.pdf", "own-pocket-card": "pocket-card.pdf"}
OTHERS = {"record-paper": "competence-record.pdf", "nurse-pocket-card": "pocket-card.pdf"}


@pytest.mark.parametrize("name", OWN)
def test_ones_own_paper_is_a_pdf_that_no_cache_keeps_and_no_file_is_named_after_anybody(signed_in, address, name):  # noqa: F811
    answer = signed_in("basil").get(address(name))
    assert (answer.status_code, answer["Content-Type"], answer["Cache-Control"]) == (200, "application/pdf", "no-store")
    assert answer["Content-Disposition"] == f'inline; filename="{OWN[name]}"'
    assert "Basil Thorne" in words(answer.content)[0]


@pytest.mark.parametrize("name", OTHERS)
@pytest.mark.parametrize(("who", "status"), [("edda", 200), ("linden", 200), ("sorrel", 200), ("amber", 403),
                                             ("basil", 403), ("wilma", 404)])  # fmt: skip
def test_anothers_paper_is_for_those_who_see_everyones_skills(signed_in, address, name, who, status):  # noqa: F811
    answer = signed_in(who).get(address(name, "basil"))
    assert answer.status_code == status
    if status == 200:
        assert "Basil Thorne" in words(answer.content)[0]


def test_each_print_leaves_a_line_that_names_nobody(ward, signed_in, address):  # noqa: F811
    signed_in("edda").get(address("record-paper", "basil"))
    line = TrailLine.objects.latest("id")
    uid = str(ward.staff["basil"].clinician.uid)
    assert (line.verb, line.outcome, line.object) == ("see_skills", "read", f"nurse {uid}")


def test_the_paper_says_what_the_page_says(ward, signed_in, address):  # noqa: F811
    rate_oneself(actor=ward.staff["basil"], skill="change", confidence=4)
    observe(ward.staff["amber"], ward.staff["basil"], ward.unit, "teach-bowel", "4", setting="simulation")
    said = " ".join(words(signed_in("basil").get(address("own-record-paper")).content))
    assert "Do a change: ready for sign-off" in said
    assert "1 of the last 2 must be with a person; so far only in simulation." in said
    assert "Do a change: 4 of 6, said 13 May 2026." in said


def test_the_links_stand_on_the_page(ward, signed_in, address):  # noqa: F811
    own = signed_in("basil").get(address("own-skills")).content
    assert all(address(name).encode() in own for name in OWN)
    other = signed_in("edda").get(address("nurse-skills", "basil")).content
    assert all(address(name, "basil").encode() in other for name in OTHERS)


@pytest.mark.parametrize("many", [1, 4])
def test_history_is_read_in_four_queries_however_many_nurses(ward, many, assert_selects):  # noqa: F811
    keys = [ward.staff[name].clinician.pk for name in ("basil", "amber", "edda", "sorrel")[:many]]
    skill_history(keys)
    with assert_selects(4):
        history = skill_history(keys)
    assert {each.skill.code for each in history.skills} == {"change", "teach-bowel", "teach-urostomy"}
    assert set(history.written) == {each.key for nurse in nurses(keys).values() for each in nurse.practices}
