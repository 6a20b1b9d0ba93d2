"""A lead sets up what the unit says: languages, phrases, numbers to ring, slots, and thresholds of its own."""

import pytest
from django.urls import reverse
from django.utils import timezone

from teaching.models import PolicyVersion, UnitSetting
from teaching.record import staff
from teaching.record.places import change_unit, policy_for, settings_of
from teaching.record.refusals import Refused
from teaching.record.unit_words import slots_of
from teaching.rules.lines import CLASSES, SIDES
from teaching.rules.policy import DEFAULT
from tests.bedside.reading import words

pytestmark = pytest.mark.django_db


def unit(house, **more):
    return {"unit": house.own.uid, **more}


def errors(page):
    return " ".join(sentence for found in page.context["form"].errors.values() for sentence in found)


def test_languages_and_a_few_phrases_in_each(house, lead, send):
    assert send(lead, "unit-languages", unit(house), languages=["en", "pl", "ar"]).status_code == 303
    page = lead.get(reverse("unit-words", kwargs=unit(house)))
    assert "Polish, no phrases." in words(page)
    form = lead.get(reverse("unit-phrases", kwargs=unit(house, language="pl"))).content.decode()
    assert 'value="Does it hurt?"' in form, "what is often said stands ready in English"
    said = {"phrase_1_english": "Does it hurt?", "phrase_1_words": "Czy boli?"}
    said |= {"phrase_2_english": "Whom will you ring?"}
    assert send(lead, "unit-phrases", unit(house, language="pl"), **said).status_code == 303
    now = settings_of(house.own)
    assert now.phrases == {"pl": [{"english": "Does it hurt?", "words": "Czy boli?"}]}, "a row not written is no row"
    assert now.languages == ["en", "pl", "ar"] and now.shifts, "what was not named stays"
    assert "Polish, 1 phrase." in words(lead.get(reverse("unit-words", kwargs=unit(house))))


def test_a_phrase_lacks_its_english_and_a_language_is_not_taught_in(house, lead, send):
    page = send(lead, "unit-phrases", unit(house, language="pl"), phrase_1_words="Czy boli?")
    assert page.status_code == 422 and "Fill this in too, or empty the row." in errors(page)
    for language in ("fr", "en", "klingon"):
        assert lead.get(reverse("unit-phrases", kwargs=unit(house, language=language))).status_code == 404
    assert errors(send(lead, "unit-languages", unit(house))) == "Choose at least one language."
    assert UnitSetting.objects.filter(unit=house.own).count() == 1


def test_numbers_to_ring_with_their_hours(house, lead, send):
    said = {
        "phone_1_label": "Stoma nurses", "phone_1_number": "00000 000 100", "phone_1_hours": "Mon to Fri 8 to 16",
        "phone_3_label": "Ward, day and night", "phone_3_number": "00000 000 200",
    }
    assert send(lead, "unit-phones", unit(house), **said).status_code == 303
    assert settings_of(house.own).phones == [
        {"label": "Stoma nurses", "number": "00000 000 100", "hours": "Mon to Fri 8 to 16"},
        {"label": "Ward, day and night", "number": "00000 000 200"},
    ]
    page = send(lead, "unit-phones", unit(house), phone_1_label="Nobody")
    assert page.status_code == 422 and "Fill this in too" in errors(page)


@pytest.mark.parametrize("number", ["abc", "12", "ring the ward"])
def test_a_number_to_ring_that_nobody_can_ring_is_refused_beside_its_field(house, lead, send, number):
    said = {"phone_1_label": "Stoma nurses", "phone_1_number": "00000 000 100"}
    page = send(lead, "unit-phones", unit(house), **said, phone_2_label="Ward", phone_2_number=number)
    asked = "Nobody can ring this: write the number with its digits, at least 3."
    assert page.status_code == 422 and page.context["form"].errors == {"phone_2_number": [asked]}
    assert settings_of(house.own).phones == []
    with pytest.raises(Refused, match="at least 3"):
        change_unit(actor=house.actor, unit=house.own, phones=[{"label": "Ward", "number": number}])


def test_a_short_number_inside_the_house_can_be_rung(house, lead, send):
    said = {"phone_1_label": "Ward", "phone_1_number": "ext. 999"}
    assert send(lead, "unit-phones", unit(house), **said).status_code == 303


def test_a_slot_is_empty_until_set_and_says_who_set_it_and_when(house, lead, send):
    assert [slot.value for slot in slots_of(house.own)] == ["", "", "", ""]
    page = words(lead.get(reverse("unit-words", kwargs=unit(house))))
    assert page.count("nobody has said") == 4
    assert page.count("No sheet for home that needs it can be printed.") == 2
    assert page.count("The sheet for home says to ask the nurse.") == 2
    assert send(lead, "unit-slots", unit(house), **{"press-minutes": "10"}).status_code == 303
    change_unit(actor=house.actor, unit=house.own, leave_hour=11)
    first, second, *_ = slots_of(house.own)
    assert (first.value, first.by, second.value) == ("10", "Lead Invented", ""), "not the later change"
    assert f"Set by Lead Invented, {first.at.day}" in words(lead.get(reverse("unit-slots", kwargs=unit(house))))
    assert send(lead, "unit-slots", unit(house), **{"press-minutes": ""}).status_code == 303
    assert [slot.value for slot in slots_of(house.own)] == ["", "", "", ""]


def test_what_to_drink_and_where_to_go_are_told_in_words(house, lead, send):
    said = {"urine-drink": "2 litres", "place-to-go": "the emergency room on Elm Road"}
    assert send(lead, "unit-slots", unit(house), **said).status_code == 303
    assert settings_of(house.own).slots == said
    page = send(lead, "unit-slots", unit(house), **{"place-to-go": "x" * 81})
    assert page.status_code == 422 and "80" in errors(page)
    for wrong in ({"urine-drink": "x" * 61}, {"place-to-go": " "}):
        with pytest.raises(Refused):
            change_unit(actor=house.actor, unit=house.own, slots=wrong)
    assert settings_of(house.own).slots == said


@pytest.mark.parametrize("value", ["0", "31", "ten", "-3"])
def test_a_slip_in_a_slot_is_named(house, lead, send, value):
    page = send(lead, "unit-slots", unit(house), **{"press-minutes": value})
    assert page.status_code == 422 and "Write a whole number of minutes from 1 to 30" in errors(page)


def test_a_lead_who_is_no_nurse_does_not_fill_a_slot(house, lead, send):
    clinician = house.users["lead"].clinician
    staff.change_details(actor=house.actor, clinician=clinician, name="Lead Invented", grade="other")
    page = send(lead, "unit-slots", unit(house), **{"press-minutes": "10"})
    assert page.status_code == 422 and "Only a registered nurse or stoma nurse" in errors(page)
    with pytest.raises(Refused):
        change_unit(actor=house.actor, unit=house.own, slots={"press-hard": "10"})


def test_every_threshold_is_listed_with_why_source_class_and_side(house, lead):
    page = words(lead.get(reverse("unit-policy", kwargs=unit(house))))
    for line in DEFAULT.lines:
        kind = line.class_ if CLASSES[line.class_] in line.source else CLASSES[line.class_]
        for said in (f"{line.value} {line.unit}", line.why, f"Source: {line.source} ({kind})", SIDES[line.side]):
            assert " ".join(said.split()) in page, (line.name, said)
    for sign in DEFAULT.signs:
        assert DEFAULT.words(sign) in page


def test_a_value_of_our_own_with_why_and_back_to_the_default(house, lead, send):
    assert send(lead, "policy-line", unit(house, name="spacing"), value="6", why="Surgeons, May.").status_code == 303
    assert send(lead, "policy-sign", unit(house, name="gap"), value="call_now", why="As above.").status_code == 303
    policy = policy_for(house.own, timezone.now())
    assert (policy.spacing.total_seconds(), policy.sign["gap"].list) == (6 * 3600, "call_now"), "both stand"
    assert policy_for(house.other, timezone.now()).version == DEFAULT.version
    newest = PolicyVersion.objects.order_by("-pk")[0]
    assert (newest.why, newest.by) == ("As above.", house.users["lead"].clinician)
    assert "6 hours Set by this unit; 4 hours otherwise." in words(lead.get(reverse("unit-policy", kwargs=unit(house))))
    send(lead, "policy-line", unit(house, name="spacing"), value="", why="No longer.")
    send(lead, "policy-sign", unit(house, name="gap"), value="default", why="No longer.")
    assert policy_for(house.own, timezone.now()).version == DEFAULT.version


@pytest.mark.parametrize(
    ("name", "said", "sentence"),
    [
        ("spacing", {"value": "600", "why": "x"}, "must be from 1 to 24 hours"),
        ("spacing", {"value": "six", "why": "x"}, "Write a whole number."),
        ("spacing", {"value": "6"}, "Write why. A value without a reason is not stored."),
        ("output_now", {"value": "1200", "why": "x"}, "is below output_today"),
    ],
)
def test_nonsense_is_refused_beside_its_field(house, lead, send, name, said, sentence):
    page = send(lead, "policy-line", unit(house, name=name), **said)
    assert page.status_code == 422 and sentence in errors(page), errors(page)
    assert not PolicyVersion.objects.exists()


def test_a_line_or_sign_that_is_none_is_not_there(house, lead):
    assert lead.get(reverse("policy-line", kwargs=unit(house, name="patience"))).status_code == 404
    assert lead.get(reverse("policy-sign", kwargs=unit(house, name="hunger"))).status_code == 404
