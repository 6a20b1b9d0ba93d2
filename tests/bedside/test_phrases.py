"""The language to teach in, and the unit's own few words of it: on the person's page, the recorder, the topics."""

import re
from datetime import date, timedelta

import pytest
from django.urls import reverse

from teaching.record.cautions import raise_caution, tell_caution
from teaching.record.entries import StayEntry
from teaching.record.places import change_unit
from teaching.record.stays import open_stay, plan_home
from tests.bedside.reading import words

PAGES = ("topics", "emptying", "change")
SUMMARY = "A few words in Polish, until an interpreter is there"


@pytest.fixture
def sam(ward):
    """Somebody who is taught in Polish, with a stoma."""
    told = {"unit": ward.unit, "authority": "made up", "mrn": "000-Z9", "family_name": "Yarrow", "given_names": "Sam",
            "born": date(1981, 1, 9), "bed": "Z9", "language": "pl"}
    stay = open_stay(actor=ward.staff["amber"], entry=StayEntry(**told))
    ward.stoma(stay)
    return stay


@pytest.fixture
def written(ward):
    """The lead has written phrases in two languages."""
    phrases = {"pl": [{"english": "Does it hurt?", "words": "Czy boli?"}],
               "ar": [{"english": "Thank you.", "words": "\u0634\u0643\u0631\u0627"}]}
    change_unit(actor=ward.staff["linden"], unit=ward.unit, languages=["en", "pl", "ar"], phrases=phrases)


def test_the_persons_page_says_which_language_to_teach_in(sam, ada, stoma, amber):
    assert "Teach in Polish." in words(amber.get(reverse("person", args=[sam.uid])))
    assert "Teach in" not in words(amber.get(reverse("person", args=[ada.uid])))


def test_the_language_comes_after_what_stands_out_and_is_left_out_while_teaching_waits(ward, sam, amber):
    address, actor = reverse("person", args=[sam.uid]), ward.staff["amber"]
    told = raise_caution(actor=actor, stay=sam, sign="dark-stoma", at=ward.now, stoma=sam.stomas.get())
    said = words(amber.get(address))
    assert "Teaching waits." in said and "Teach in Polish." not in said
    tell_caution(actor=actor, caution=told, whom="R. Invented", at=ward.now)
    plan_home(actor=actor, stay=sam, at=ward.now + timedelta(days=2), goes_to="facility")
    said = amber.get(address).context["page"].stands_out
    assert said[0].endswith("Teach what the person asks for.") and said[-1] == "Teach in Polish."


@pytest.mark.parametrize("name", PAGES)
def test_the_phrases_of_that_language_stand_behind_one_word(sam, written, amber, name):
    page = amber.get(reverse(name, args=[sam.uid]))
    body = page.content.decode()
    assert f"{SUMMARY} Does it hurt? Czy boli?" in words(page)
    assert re.search(r'<dd lang="pl" dir="auto">\s*Czy boli\?\s*</dd>', body) and "Thank you." not in body
    assert body.count(SUMMARY) == 1 and "They never stand in for an interpreter." in body


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_said_where_none_are_written_or_none_are_needed(ward, sam, ada, stoma, amber, name):
    change_unit(actor=ward.staff["linden"], unit=ward.unit, phrases={"ar": [{"english": "Thank you.", "words": "x"}]})
    for stay in (sam, ada):
        assert "A few words in" not in words(amber.get(reverse(name, args=[stay.uid])))


def test_they_are_still_there_when_the_form_comes_back(sam, written, send):
    for name in PAGES:
        answer = send(name, sam)
        assert answer.status_code == 422 and SUMMARY in words(answer), name
