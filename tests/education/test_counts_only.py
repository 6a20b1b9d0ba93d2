"""Educators and leads see counts of people, never a chart, unless they nurse there: beside data that could leak."""

import pytest
from django.urls import reverse

from teaching import models
from teaching.record.cautions import raise_caution, tell_caution
from teaching.record.skills import ask_to_be_observed
from teaching.record.staff import grant_role
from tests.bedside.reading import words
from tests.bedside.ward import HOUSE, NIGHT

PAGES = ("nurses-by-skill", "own-skills", "who-teaches")
MARKS = ("Ada", "Fernhollow", "000-A1", "A1", "1958", "ileostomy", "Stoma dark", "02:14")


@pytest.fixture
def leaky(ward, overdue, stoma):
    """A name, a bed, a number, a due change, a caution and an ask paired with that bed, all on the unit."""
    ada = overdue
    ward.teach(ada, stoma, 20)
    told = raise_caution(actor=ward.staff["amber"], stay=ada, sign="dark-stoma", at=NIGHT, stoma=stoma)
    tell_caution(actor=ward.staff["amber"], caution=told, whom="R. Invented", at=NIGHT)  # else no change is taught
    ask_to_be_observed(
        actor=ward.staff["basil"], unit=ward.unit, skill="change", paired_at=NIGHT.replace(hour=12), bed="A1"
    )
    return ada


def leaks(said):
    return [mark for mark in MARKS if mark in said]


@pytest.mark.parametrize("who", ["edda", "linden"])
@pytest.mark.parametrize("name", PAGES)
def test_counts_never_charts(who, name, leaky, signed_in, address):
    page = signed_in(who).get(address(name))
    assert page.status_code == 200
    html = page.content.decode().replace(str(leaky.uid), "the stay itself")
    assert leaks(words(page)) == [] and "the stay itself" not in html


@pytest.mark.parametrize("name", ["nurse-skills", "record-practice"])
def test_nor_on_the_pages_of_one_nurse(name, leaky, signed_in, address):
    skill = ["change"] if name == "record-practice" else []
    assert leaks(words(signed_in("edda").get(address(name, "basil", *skill)))) == []


def test_they_are_given_the_counts(leaky, signed_in, address):
    page = words(signed_in("edda").get(address("who-teaches")))
    assert "1 change is planned within 3 days; 1 has nobody ticked or booked who is signed off to teach it." in page
    assert "1 change falls on Tuesday's night shift with nobody ticked." in page


def test_and_no_chart_by_its_address(leaky, ward, signed_in):
    assert signed_in("edda").get(reverse("person", args=[leaky.uid])).status_code == 403
    assert signed_in("edda").get(reverse("this-shift", args=[ward.unit.uid])).status_code == 403


def test_an_educator_who_nurses_there_sees_the_person(leaky, ward, signed_in, address):
    grant_role(actor=HOUSE, clinician=ward.staff["edda"].clinician, role="ward-nurse", unit=ward.unit)
    page = words(signed_in("edda").get(address("who-teaches")))
    assert "Bed A1, Ada Fernhollow" in page and "02:14" in page


def test_what_is_kept_of_skills_names_no_person(leaky, ward):
    """The tables of skills have no way to a stay, so nothing can be joined by mistake."""
    for model in (models.Practice, models.SignOff, models.SelfRating, models.HuddleTick, models.SkillVersion):
        assert "stay" not in {field.name for field in model._meta.get_fields()}
