"""A stay from its first form to a helper who has said yes, each saving and showing the next thing to do."""

from datetime import UTC, datetime

import pytest
import time_machine
from django.urls import reverse

from teaching.models import Kit, LearnerConsent, PlannedHome, Stay, Stoma

pytestmark = pytest.mark.django_db
SETUP, STAY_SETUP = 8, 12
NOON = "2026-11-03 17:00:00+00:00"  # 12:00 in New York
IVY = {
    "family_name": "Marsden", "given_names": "Ivy", "born": "1958-04-23", "mrn": "77-1", "language": "en",
    "authority": "Invented Hospital", "bed": "12", "planned_day": "2026-11-06",
}
KIT = {
    "pieces": "two", "shape": "flat", "opening": "cut", "closure": "drainable", "outlet": "strip",
    "items": ["remover", "seal"], "interval_hours": "72", "cut_limit_mm": "60",
}


@pytest.fixture(autouse=True)
def at_noon():
    with time_machine.travel(NOON, tick=False):
        yield


def newest(model):
    return model.objects.order_by("-pk").first()


def test_each_form_saves_and_shows_the_next_thing_to_do(house, nurse, send):
    page = nurse.get(send(nurse, "open-stay", {"unit": house.own.uid}, **IVY).url)
    stay = newest(Stay)
    assert (stay.now.name, stay.now.bed, stay.now.unit) == ("Ivy Marsden", "12", house.own)
    assert newest(PlannedHome).at == datetime(2026, 11, 6, 17, 0, tzinfo=UTC), "12:00 on the ward clock"
    assert page.context["page"].next.words == "Write down the stoma"
    said = {"kind": "ileostomy", "construction": "loop", "side": "right", "formed_at_0": "2026-11-02T10:00"}
    page = nurse.get(send(nurse, "add-stoma", {"stay": stay.uid}, **said).url)
    stoma = newest(Stoma)
    assert (stoma.stay, stoma.label) == (stay, "right")
    assert stoma.formed_at == datetime(2026, 11, 2, 15, 0, tzinfo=UTC)
    assert page.context["page"].next.words == "Write down what it wears"
    page = nurse.get(send(nurse, "fit-kit", {"stoma": stoma.uid}, **KIT).url)
    kit = newest(Kit)
    assert (kit.stoma, kit.items, kit.interval_hours, kit.outlet) == (stoma, ["remover", "seal"], 72, "strip")
    assert "Two-piece drainable pouch; flat, cut to fit; strip outlet;" in page.content.decode()
    assert page.context["page"].next.words.startswith("Done")


def test_a_helper_learns_once_both_have_said_yes_and_either_takes_it_back(house, nurse, send):
    stay = {"stay": house.stay.uid}
    page = nurse.get(send(nurse, "add-helper", stay, name="Ben Invented", person_said_yes="on").url)
    assert "Not taught until both have said yes." in page.content.decode()
    ben = house.stay.learners.get(name="Ben Invented")
    for whose, answer, learns in (("helper", "yes", True), ("person", "no", False)):
        named = {"learner": ben.uid, "whose": whose, "answer": answer}
        page = nurse.get(send(nurse, "record-consent", named).url)
        line = next(each for each in page.context["page"].helpers if each.learner == ben)
        assert line.may_learn is learns
    said = LearnerConsent.objects.filter(learner=ben).order_by("number")
    assert list(said.values_list("whose", "yes")) == [("person", True), ("helper", True), ("person", False)]


def test_a_consent_that_is_no_word_of_the_house_is_not_there(house, nurse):
    for whose, answer in (("lawyer", "yes"), ("helper", "perhaps")):
        named = {"learner": house.learner.uid, "whose": whose, "answer": answer}
        assert nurse.get(reverse("record-consent", kwargs=named)).status_code == 404


@pytest.mark.parametrize(
    ("said", "field", "sentence"),
    [
        ({"family_name": " "}, "family_name", "Write the family name, as on the wristband."),
        ({"given_names": ""}, "given_names", "Write the given names, as on the wristband."),
        ({"born": ""}, "born", "Write the date of birth, as on the wristband."),
        ({"born": "23/04/1958"}, "born", "Write the day as year, month, day, such as 1958-04-23."),
        ({"born": "2027-01-01"}, "born", "This birth date is not possible"),
        ({"mrn": ""}, "mrn", "Write the number, as on the wristband."),
        ({"mrn": "A1"}, "mrn", "This person already has a stay on Heron Ward"),
        ({"mrn": "A1", "born": "1958-04-24"}, "born", "The person with this number has another birth date here"),
        ({"authority": ""}, "authority", "Write the name of the hospital that gave the number."),
        ({"language": "xx"}, "language", "This is not one of the choices."),
        ({"bed": "b" * 21}, "bed", "at most 20 characters"),
        ({"opened_at_0": "2026-11-04T09:00"}, "opened_at", "This time is still to come."),
        ({"opened_at_0": "2026-11-01T01:30"}, "opened_at", "happened twice"),
        ({"surgery_at_0": "2026-03-08T02:30"}, "surgery_at", "does not exist here"),
        ({"planned_day": "2026-11-02"}, "planned_day", "The planned leaving is before the stay opened"),
        ({"planned_day": "soon"}, "planned_day", "Write the day as year, month, day"),
    ],
)
def test_a_slip_in_a_stay_is_named_beside_its_field(house, nurse, send, said, field, sentence):
    page = send(nurse, "open-stay", {"unit": house.own.uid}, **IVY | said)
    assert page.status_code == 422
    assert any(sentence in error for error in page.context["form"].errors[field]), page.context["form"].errors
    assert Stay.objects.count() == 1


@pytest.mark.parametrize(
    ("said", "field", "sentence"),
    [
        ({"kind": ""}, "kind", "Choose the kind of stoma."),
        ({"kind": "jejunostomy"}, "kind", "This is not one of the choices."),
        ({"side": ""}, "side", "Choose the side."),
        ({"side": "right"}, "label", 'There is already a stoma called "right"'),
        ({"formed_at_0": "2026-12-01T10:00"}, "formed_at", "This time is still to come."),
    ],
)
def test_a_slip_in_a_stoma_is_named_beside_its_field(house, nurse, send, said, field, sentence):
    whole = {"kind": "colostomy", "construction": "end", "side": "left"}
    page = send(nurse, "add-stoma", {"stay": house.stay.uid}, **whole | said)
    assert page.status_code == 422
    assert any(sentence in error for error in page.context["form"].errors[field])
    assert Stoma.objects.count() == 1


@pytest.mark.parametrize(
    ("said", "field", "sentence"),
    [
        ({"pieces": ""}, "pieces", "Choose one-piece or two-piece."),
        ({"opening": "torn"}, "opening", "This is not one of the choices."),
        ({"outlet": ""}, "outlet", "Choose how the outlet shuts, or none."),
        ({"outlet": "none"}, "outlet", "Say how the outlet shuts"),
        ({"closure": "closed"}, "outlet", "A closed pouch has no outlet"),
        ({"pre_cut_mm": "30"}, "pre_cut_mm", "Only a pre-cut flange has this size"),
        ({"cut_limit_mm": "300"}, "cut_limit_mm", "300 mm is not possible here"),
        ({"cut_limit_mm": "wide"}, "cut_limit_mm", "Write a number of millimetres"),
        ({"items": ["glue"]}, "items", "This is not one of the choices."),
        ({"interval_hours": "71"}, "interval_hours", "This is not one of the choices."),
        ({"happened_at_0": "2026-11-04T10:00"}, "happened_at", "This time is still to come."),
    ],
)
def test_a_slip_in_a_kit_is_named_beside_its_field(house, nurse, send, said, field, sentence):
    page = send(nurse, "fit-kit", {"stoma": house.stoma.uid}, **KIT | said)
    assert page.status_code == 422
    assert any(sentence in error for error in page.context["form"].errors[field])
    assert Kit.objects.count() == 1


@pytest.mark.parametrize(
    ("said", "field", "sentence"),
    [
        ({"name": ""}, "name", "Write the helper's name."),
        ({"name": "joan invented"}, "name", "already a helper of this person"),
        ({"minutes_away": "-1"}, "minutes_away", "Write a whole number of minutes."),
    ],
)
def test_a_slip_in_a_helper_is_named_beside_its_field(house, nurse, send, said, field, sentence):
    page = send(nurse, "add-helper", {"stay": house.stay.uid}, **{"name": "Ben Invented"} | said)
    assert page.status_code == 422
    assert any(sentence in error for error in page.context["form"].errors[field])
    assert house.stay.learners.count() == 2


@pytest.mark.parametrize("more", [0, 2])
def test_the_pages_cost_the_same_for_one_and_three(house, nurse, assert_selects, more):
    for number in range(more):
        house.open_stay(f"B{number}")
        house.add_stoma(house.stay, label=f"stoma {number}")
        house.add_helper(house.stay, f"Helper {number}")
    for address, queries in (
        (reverse("setup"), SETUP),
        (reverse("stay-setup", kwargs={"stay": house.stay.uid}), STAY_SETUP),
    ):
        nurse.get(address)
        with assert_selects(queries):
            nurse.get(address)
