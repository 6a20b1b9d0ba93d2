"""Bad input: a sentence beside the field, nothing stored, the form's key unburnt."""

import re
import uuid

import pytest
import time_machine
from django.urls import reverse

from teaching.models import Account, RequestKey
from tests.bedside.reading import words


@pytest.fixture
def person(ada):
    return ada.learners.get(kind="person")


@pytest.fixture
def taps(stoma, person):
    return {"which": f"{stoma.uid}:{person.uid}", "alone": "on"}


def beside(response, field):
    """The sentences in the error list of one field."""
    body = response.content.decode()
    found = re.search(rf'<ul class="errors" id="id_{re.escape(field)}_error">(.*?)</ul>', body, re.S)
    return " ".join(re.sub(r"<[^>]+>", " ", found[1]).split()) if found else ""


def refused(response):
    assert response.status_code == 422
    assert Account.objects.count() == 0
    assert not RequestKey.objects.exists()
    assert "Nothing was stored yet. Please mend:" in words(response)
    return response


def test_nobody_tapped(ada, stoma, send):
    answer = refused(send("emptying", ada, alone="on"))
    assert "Tap whose emptying this was" in beside(answer, "which")


def test_nothing_said_of_how_it_went(ada, taps, send):
    answer = refused(send("emptying", ada, which=taps["which"]))
    assert beside(answer, "alone").startswith("Tap this if they did it all alone")


def test_an_unknown_level(ada, taps, send):
    answer = refused(send("emptying", ada, **taps, **{"ratings.em-open": "05a"}))
    assert "em-open" in answer.context["form"].errors.as_json()
    assert beside(answer, "ratings.em-open")


def test_a_row_of_another_checklist_is_not_a_field_here(ada, taps, send):
    send("emptying", ada, **taps, **{"ratings.zz-other": "01"})
    assert not Account.objects.get().ratings.filter(code="zz-other").exists()


def test_a_time_still_to_come(ada, taps, send):
    answer = refused(send("emptying", ada, **taps, began_at_0="2026-05-13T09:00"))
    assert "still to come" in beside(answer, "began_at")


def test_a_time_before_the_pouch_was_there(ada, taps, send):
    answer = refused(send("emptying", ada, **taps, began_at_0="2026-05-08T09:30"))
    assert "Emptying needs a drainable bowel pouch; this stoma does not wear one." in words(answer)


def test_a_stoma_of_somebody_else(ward, ada, taps, person, send):
    other = ward.stoma(ward.stay("Bram", "Quillfeather", "A2"))
    answer = refused(send("emptying", ada, which=f"{other.uid}:{person.uid}", alone="on"))
    assert "Tap whose emptying this was" in beside(answer, "which")


def test_a_stoma_without_a_written_pouch_is_not_offered(ward, ada, person, send, amber):
    bare = ward.stoma(ada, "colostomy", "left", closure=None)
    page = words(amber.get(reverse("emptying", args=[ada.uid])))
    assert "The end colostomy, left: no pouch is written down for it yet." in page
    refused(send("emptying", ada, which=f"{bare.uid}:{person.uid}", alone="on"))


def test_a_helper_who_has_not_said_yes(ward, ada, stoma, send, amber):
    tom = ward.helper(ada, "Tom", "son", agreed=False)
    page = words(amber.get(reverse("emptying", args=[ada.uid])))
    assert "Tom, son: not both have said yes yet." in page
    refused(send("emptying", ada, which=f"{stoma.uid}:{tom.uid}", alone="on"))


def test_a_reason_beside_alone(ada, taps, send):
    answer = refused(send("emptying", ada, **taps, **{"reason.em-open": "rushed"}))
    assert "A reason explains a lower level" in words(answer)


def test_what_was_tapped_stays_on_the_refused_page(ada, taps, send):
    body = refused(send("emptying", ada, **taps, **{"ratings.em-open": "03"}, began_at_0="tomorrow")).content.decode()
    assert re.search(r'name="alone"[^>]*checked', body)
    assert re.search(r'name="ratings.em-open"[^>]*value="03"[^>]*checked|value="03"[^>]*checked', body)


def test_an_hour_that_happened_twice_is_asked(ward, send, signed_in):
    """Europe/London, 25 October 2026: 01:30 happens in summer time and again in winter time."""
    with time_machine.travel("2026-10-25T06:00:00+00:00", tick=False):
        stay = ward.stay("Cora", "Larkmead", "A3")
        stoma = ward.stoma(stay)
        taps = {"which": f"{stoma.uid}:{stay.learners.get().uid}", "alone": "on"}
        taps |= {
            "began_at_0": "2026-10-25T01:30",
            "form_key": str(uuid.uuid4()),
            "client": signed_in("amber"),
        }
        answer = send("emptying", stay, **taps)
        assert answer.status_code == 422
        assert "happened twice" in beside(answer, "began_at")
        assert "the second, after the clocks went back" in words(answer)
        assert send("emptying", stay, **taps, began_at_1="second").status_code == 303
    assert Account.objects.get().began_at.isoformat() == "2026-10-25T01:30:00+00:00"
