"""The command line opens the first unit and names its first lead; from there on the browser does."""

import re
from io import StringIO

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError
from django.urls import reverse

from teaching.access.scope import may
from teaching.models import Clinician, Unit, User
from teaching.record.places import settings_of
from tests.access.house import PASSWORD

pytestmark = pytest.mark.django_db
PLOVER = {"zone": "Europe/Dublin", "lead": "Lena Invented", "username": "lena", "grade": "registered"}


def said(*args, **options):
    out = StringIO()
    call_command(*args, stdout=out, **options)
    return out.getvalue()


def password_in(text):
    return re.search(r"shown once: (\S+)", text)[1]


def test_the_first_lead_signs_in_and_sets_up_the_unit(client):
    password = password_in(said("open_unit", "Plover Ward", **PLOVER))
    unit = Unit.objects.get(name="Plover Ward")
    assert [each["name"] for each in settings_of(unit).shifts] == ["day", "night"]
    client.post(reverse("sign-in"), {"username": "lena", "password": password})
    client.post(reverse("change-password"), {"password": PASSWORD, "again": PASSWORD})
    assert client.get(reverse("staff", kwargs={"unit": unit.uid})).status_code == 200


def test_shifts_are_given_in_order():
    said("open_unit", "Plover Ward", shift=["early 06:00 14:00", "late 14:00 22:00", "night 22:00 06:00"], **PLOVER)
    assert [each["starts"] for each in settings_of(Unit.objects.get()).shifts] == ["06:00", "14:00", "22:00"]


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"zone": "Dublin"}, "is not a time zone"),
        ({"shift": ["day"]}, "is not a shift"),
        ({"shift": ["day 7 19"]}, "Each shift needs a name, a start and an end"),
        ({"grade": "captain"}, "is not known here"),
        ({"username": " "}, "The sign-in name is missing"),
    ],
)
def test_a_slip_opens_nothing(wrong, sentence):
    with pytest.raises(CommandError, match=sentence):
        said("open_unit", "Plover Ward", **PLOVER | wrong)
    assert (Unit.objects.count(), Clinician.objects.count(), User.objects.count()) == (0, 0, 0)


def test_a_stoma_nurse_is_made_for_the_whole_hospital_and_taken_back(house):
    password = password_in(said("stoma_nurse", "ona", name="Ona Invented"))
    ona = User.objects.get(username="ona")
    assert ona.check_password(password) and ona.must_change_password
    assert may(ona, "see_person", house.own) and may(ona, "see_person", house.other)
    said("stoma_nurse", "ona", take_back=True)
    assert not may(User.objects.get(username="ona"), "see_person")
    said("stoma_nurse", "ona")
    assert may(User.objects.get(username="ona"), "see_person")
    with pytest.raises(CommandError, match="Nobody signs in as eve"):
        said("stoma_nurse", "eve")


def test_a_first_password_for_somebody_no_single_lead_may_help(house):
    user = house.users["lead"]
    password = password_in(said("first_password", "lead"))
    user.refresh_from_db()
    assert user.check_password(password) and user.must_change_password
    with pytest.raises(CommandError, match="Nobody signs in as eve"):
        said("first_password", "eve")
