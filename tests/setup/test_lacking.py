"""The first lead lands on set-up, which says what the unit still lacks, each with where it is mended."""

import re
import uuid
from io import StringIO

import pytest
from django.core.management import call_command
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from teaching.models import Clinician, Unit, UnitSetting
from teaching.record import staff
from teaching.record.actor import Actor
from teaching.record.places import change_unit
from teaching.setup.lacking import lacking
from tests import skills
from tests.access.conftest import house, signed_in  # noqa: F401
from tests.access.house import HOUSE, PASSWORD
from tests.bedside.reading import words

pytestmark = pytest.mark.django_db
HEADING = "Still lacking here"
PHONE = {"label": "Ward", "number": "00000 000 200", "hours": "always"}


@pytest.fixture
def first():
    """A unit as the command line opens it, and its first lead's actor."""
    out = StringIO()
    opened = {"zone": "Europe/Dublin", "lead": "Lena Invented", "username": "lena", "grade": "registered"}
    call_command("open_unit", "Plover Ward", stdout=out, **opened)
    lead = Clinician.objects.get()
    return Unit.objects.get(), Actor(clinician=lead, user=lead.user), re.search(r"once: (\S+)", out.getvalue())[1]


def said(unit):
    return [lack.words for lack in lacking(unit, timezone.now())]


def nurse(unit, username):
    clinician = staff.register_clinician(actor=HOUSE, name=f"{username} Invented", grade="registered")
    staff.grant_role(actor=HOUSE, clinician=clinician, role="ward-nurse", unit=unit)
    return Actor(clinician=clinician, user=staff.open_account(actor=HOUSE, clinician=clinician, username=username)[0])


def test_the_first_lead_lands_on_set_up_and_every_link_leads_on(first):
    unit, _, password = first
    browser = Client()
    assert browser.post(reverse("sign-in"), {"username": "lena", "password": password}).status_code == 302
    browser.post(reverse("change-password"), {"password": PASSWORD, "again": PASSWORD})
    landed = browser.get(reverse("home"), follow=True)
    assert landed.redirect_chain[-1][0] == reverse("setup") and landed.status_code == 200
    found = lacking(unit, timezone.now())
    assert HEADING in words(landed) and len(found) == 5
    for lack in found:
        assert lack.words in words(landed) and f'href="{lack.address}"' in landed.content.decode()
        assert browser.get(lack.address).status_code == 200, lack.address


def test_each_goes_once_it_is_there_and_the_list_with_the_last(first):
    unit, lead, _ = first
    staff_wanting, holders, numbers, slots, place = said(unit)
    assert staff_wanting == "No ward nurse with a sign-in: nobody can record at the bedside."
    assert holders.startswith("Nobody is signed off for: ") and holders.count(";") == 2
    assert numbers == "No number to ring."
    assert slots.startswith("Not filled in by a nurse who leads here: ") and "sheet for home" in slots
    assert place == (
        "Not filled in by a nurse who leads here: where to go when nobody answers the number. "
        "Each sheet for home has an empty line for it, to be written in by hand."
    )

    taught = nurse(unit, "nell")
    assert said(unit) == [holders, numbers, slots, place]
    skills.certify(lead, taught, "change")
    assert said(unit)[0].count(";") == 1
    for code in ("teach-bowel", "teach-urostomy"):
        skills.certify(lead, taught, code)
    assert said(unit) == [numbers, slots, place]
    change_unit(actor=lead, unit=unit, phones=[{"label": "Ward", "number": "00000 000 200"}])
    assert said(unit) == ["Nobody has said when this is answered: Ward.", slots, place]
    change_unit(actor=lead, unit=unit, phones=[PHONE])
    change_unit(actor=lead, unit=unit, slots={"press-minutes": "10", "hours-without-urine": "6"})
    assert said(unit) == [place]
    change_unit(actor=lead, unit=unit, slots={
        "press-minutes": "10", "hours-without-urine": "6", "place-to-go": "the emergency room (made up)"})
    assert said(unit) == []
    change_unit(actor=lead, unit=unit, languages=["en", "pl"])
    assert said(unit) == ["No phrases written in Polish."]
    change_unit(actor=lead, unit=unit, phrases={"pl": [{"english": "Does it hurt?", "words": "Czy boli?"}]})
    lead.user.must_change_password = False
    lead.user.save()
    browser = Client()
    browser.force_login(lead.user)
    assert said(unit) == [] and HEADING not in words(browser.get(reverse("setup")))


def test_a_certificate_that_ran_out_and_a_closed_sign_in_are_none(first):
    unit, lead, _ = first
    gone = nurse(unit, "nell")
    skills.certify(lead, gone, "change", days_ago=300, days_left=-1)
    gone.user.is_active = False
    gone.user.save()
    assert said(unit)[0].startswith("No ward nurse") and said(unit)[1].count(";") == 2


def test_whoever_does_not_lead_is_not_asked(house, signed_in):  # noqa: F811
    assert HEADING in words(signed_in("lead").get(reverse("setup")))
    assert HEADING not in words(signed_in("ward-nurse").get(reverse("setup")))


def test_it_asks_the_same_of_the_database_for_two_nurses_and_for_eight(first):
    unit, lead, _ = first

    def asked():
        with CaptureQueriesContext(connection) as caught:
            lacking(unit, timezone.now())
        return len(caught)

    for name in ("one", "two"):
        skills.certify(lead, nurse(unit, name))
    asked()  # what is published is read once and kept
    few = asked()
    for number in range(6):
        skills.certify(lead, nurse(unit, f"more{number}"))
    assert asked() == few <= 20


def test_a_number_written_before_numbers_were_looked_over_is_said_to_be_none(first):
    unit, lead, _ = first
    change_unit(actor=lead, unit=unit, phones=[PHONE])
    stored = UnitSetting.objects.filter(unit=unit).order_by("-number").first()
    told = {field.attname: getattr(stored, field.attname) for field in UnitSetting._meta.fields}
    told |= {"id": None, "uid": uuid.uuid4(), "number": stored.number + 1}
    UnitSetting.objects.create(**told | {"phones": [{**PHONE, "number": "ask the porter"}]})
    assert "Nobody can ring what is written down: Ward." in said(unit)
