"""Cautions under the band, in words with state and time; told, then settled; nothing ever disappears."""

import pytest
from django.urls import reverse

from teaching.models import CautionStep
from teaching.record.cautions import raise_caution
from tests.bedside.reading import words
from tests.bedside.ward import NIGHT


@pytest.fixture
def caution(ward, ada, stoma):
    return raise_caution(actor=ward.staff["amber"], stay=ada, sign="dark-stoma", at=NIGHT, stoma=stoma)


def steps():
    return list(CautionStep.objects.order_by("number").values_list("kind", "whom", "answer"))


def test_an_open_caution_stands_under_the_band_of_every_page(ada, caution, amber):
    said = f"Call now: {caution.words}. Open since today 02:14, nobody told yet."
    for name in ("person", "emptying", "care"):
        page = words(amber.get(reverse(name, args=[ada.uid])))
        assert said in page, name
        assert page.index("Ada Fernhollow born 2 Mar 1958") < page.index(said)


def test_it_is_told(ada, caution, send, amber):
    answer = send("caution-told", caution, whom="Dr Nettle, surgical on call", answer="comes at 02:30")
    assert (answer.status_code, answer["Location"]) == (303, reverse("person", args=[ada.uid]))
    assert steps() == [("told", "Dr Nettle, surgical on call", "comes at 02:30")]
    page = words(amber.get(reverse("person", args=[ada.uid])))
    assert "Told today 02:14 (Dr Nettle, surgical on call), answer: comes at 02:30, not settled." in page


def test_told_needs_a_name(caution, send):
    answer = send("caution-told", caution)
    assert answer.status_code == 422
    assert "Write whom you told." in words(answer)
    assert steps() == []


def test_settling_is_offered_only_once_it_was_told(ada, caution, send, amber):
    """R10: a caution is settled only after it was told."""
    before = amber.get(reverse("person", args=[ada.uid])).content.decode()
    assert reverse("caution-settled", args=[caution.uid]) not in before
    refused = send("caution-settled", caution, how="normal")
    assert refused.status_code == 422
    assert steps() == []
    send("caution-told", caution, whom="Dr Nettle")
    after = amber.get(reverse("person", args=[ada.uid])).content.decode()
    assert reverse("caution-settled", args=[caution.uid]) in after


def test_it_is_settled_by_a_named_clinician(ada, caution, send, amber):
    send("caution-told", caution, whom="Dr Nettle")
    assert send("caution-settled", caution, how="clinician").status_code == 422
    answer = send("caution-settled", caution, how="clinician", whom="Dr Nettle", answer="bruise from the operation")
    assert answer.status_code == 303
    assert steps()[-1] == ("settled", "Dr Nettle", "bruise from the operation")
    assert "Call now" not in words(amber.get(reverse("person", args=[ada.uid])))


def test_settled_by_looking_again_says_so(caution, send):
    send("caution-told", caution, whom="Dr Nettle")
    send("caution-settled", caution, how="normal")
    assert steps()[-1] == ("settled", "", "Looked again: normal now.")


def test_tapped_by_mistake_is_a_step_of_its_own_with_its_reason(ada, caution, send, amber):
    assert send("caution-mistake", caution).status_code == 422
    send("caution-mistake", caution, answer="meant the row above")
    assert steps() == [("withdrawn", "", "meant the row above")]
    assert "Call now" not in words(amber.get(reverse("person", args=[ada.uid])))


def test_an_assistant_tells_and_does_not_settle(ada, caution, signed_in, send):
    ashby = signed_in("ashby")
    assert send("caution-told", caution, client=ashby, whom="Amber Oakley").status_code == 303
    assert send("caution-settled", caution, client=ashby, how="normal").status_code == 403


def test_a_caution_of_another_unit_is_not_there(caution, signed_in, send):
    assert send("caution-told", caution, client=signed_in("wilma"), whom="Dr Nettle").status_code == 404


def test_a_planner_sees_the_caution_and_is_offered_nothing(ward, ada, caution, signed_in):
    from teaching.record.staff import grant_role
    from tests.bedside.ward import HOUSE

    grant_role(actor=HOUSE, clinician=ward.staff["edda"].clinician, role="planner", unit=ward.unit)
    page = signed_in("edda").get(reverse("person", args=[ada.uid]))
    assert f"Call now: {caution.words}." in words(page)
    assert "I told somebody" not in words(page)
    assert "Record an emptying" not in words(page)
