"""A pouch change recorded with scripts off: part by part, one sentence each; only what differed is opened."""

import re

import pytest
from django.urls import reverse

from teaching.models import Account, Event
from tests.bedside.reading import words

USUAL = (
    "prep-kit", "prep-hands", "off-peel", "off-cover", "clean-dry", "hair", "look-stoma", "look-skin", "look-under",
    "measure", "fit-check", "cut", "shut-first", "centre", "press", "join", "close", "next-due",
)  # fmt: skip
PARTS = ("prepare", "take-off", "clean-look", "fit-protect", "put-on")
ALONE = {f"alone.{part}": "on" for part in PARTS}


@pytest.fixture
def person(ada):
    return ada.learners.get(kind="person")


@pytest.fixture
def who(stoma, person):
    return {"which": f"{stoma.uid}:{person.uid}"}


def stored(field="answer"):
    return dict(Account.objects.get().ratings.order_by("row__position").values_list("code", field))


def test_five_sentences_store_the_eighteen_rows_of_a_usual_change(ada, who, send):
    answer = send("change", ada, **who, **ALONE)
    assert (answer.status_code, answer["Location"]) == (303, reverse("person", args=[ada.uid]))
    decisions = {"hair": "right", "fit-check": "right"}
    assert stored() == {code: decisions.get(code, "06") for code in USUAL}
    assert set(stored("entered_as").values()) == {"phase"}
    assert Event.objects.get().procedure == "change"


def test_one_sentence_rates_its_own_part_alone(ada, who, send):
    send("change", ada, **who, **{"alone.prepare": "on"})
    assert stored() == {"prep-kit": "06", "prep-hands": "06"}


def test_nothing_is_chosen_before_somebody_taps(ada, stoma, amber):
    page = amber.get(reverse("change", args=[ada.uid])).content.decode()
    assert page.count('type="radio"') > 150
    assert not re.findall(r"<input[^>]* checked", page)


def test_a_part_says_its_steps_and_its_sentence_stands_first(ada, stoma, amber):
    page = words(amber.get(reverse("change", args=[ada.uid])))
    assert "Prepare 2 steps All of this alone, nobody spoke Lay everything out before starting" in page
