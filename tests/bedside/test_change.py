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


def test_each_row_shows_the_level_before_and_what_to_watch_for(ward, ada, stoma, amber):
    ward.teach(ada, stoma, 60, ["03"], codes=["cut"], procedure="change")
    page = words(amber.get(reverse("change", args=[ada.uid])))
    assert (
        "Cut the hole and smooth its edge 03 You did less than half of the work last, Sun 14:14 "
        "Watch for: a rough edge; past the cutting limit; upside down." in page
    )
    assert "Measure the stoma where it meets the skin not met before" in page


@pytest.mark.parametrize(
    "title",
    [
        "See the skin below the stoma, with a mirror",
        "Decide on powder",
        "Fill the dip with the ring, strip or paste",
        "Shut the outlet before the pouch goes on",
        "Join pouch and flange",
        "Shut the outlet and check it",
    ],
)
def test_what_is_often_missed_has_a_line_of_its_own(title, ward, ada, amber):
    ward.stoma(ada, items=("powder", "seal"))
    assert title in [row.item.title for row in rows(amber.get(reverse("change", args=[ada.uid])))]


def rows(response):
    return [row for part in response.context["page"].parts for row in part.rows]


def test_rows_for_kit_the_person_does_not_have_are_absent(ward, ada, amber):
    ward.stoma(ada, pieces="one", opening="mouldable")
    codes = {row.item.code for row in rows(amber.get(reverse("change", args=[ada.uid])))}
    assert "mould" in codes
    assert not codes & {"join", "cut", "fit-check", "powder", "seal", "belt", "look-tubes"}


def test_words_to_teach_with_stand_folded_in_each_row(ada, stoma, amber):
    page = words(amber.get(reverse("change", args=[ada.uid])))
    assert (
        "Words to teach with Good looks like: soft wipe, patted dry; scraps of paste may stay on. "
        "Ask back: What should never go on this skin? "
        "Common slips: baby wipes, oils, scented things; skin still damp." in page.replace("“", "").replace("”", "")
    )


def test_hard_moments_are_folded_on_the_page_with_where_they_come_from(ada, stoma, amber):
    page = words(amber.get(reverse("change", args=[ada.uid])))
    assert "The stoma works in the middle of it This is normal." in page
    assert "common practice, no source. Local policy wins." in page


def test_the_chooser_asks_in_words_and_taps_the_level_it_comes_to(ada, stoma, amber):
    body = amber.get(reverse("change", args=[ada.uid])).content.decode()
    (target,) = re.findall(r'for="(id_ratings\.cut_\d)">Half and half', body)
    assert re.search(rf'value="02"[^>]*id="{re.escape(target)}"', body)


def test_a_decision_has_no_level_to_choose(ada, stoma, amber):
    decisions = [row for row in rows(amber.get(reverse("change", args=[ada.uid]))) if row.item.decision]
    assert {row.item.code for row in decisions} == {"hair", "fit-check"}
    assert not any(row.unsure for row in decisions)


def test_an_assistant_does_not_rate_a_change(ada, who, send, signed_in):
    assert send("change", ada, client=signed_in("ashby"), **who, **ALONE).status_code == 403
    assert not Account.objects.exists()


def test_a_students_change_waits_for_a_co_signature(ada, who, stoma, send, signed_in):
    tansy = signed_in("tansy")
    assert "It waits for a registered nurse to co-sign." in words(tansy.get(reverse("change", args=[ada.uid])))
    send("change", ada, client=tansy, **who, **ALONE)
    assert Account.objects.get().role == "student"


@pytest.mark.parametrize("sessions", [1, 3])
def test_the_page_costs_the_same_queries_for_one_and_three_sessions(
    sessions, ward, ada, stoma, amber, assert_selects
):
    for number in range(sessions):
        ward.teach(ada, stoma, 20 + 24 * number, codes=["cut"], levels=["06"], procedure="change")
    with assert_selects(21):
        amber.get(reverse("change", args=[ada.uid]))
