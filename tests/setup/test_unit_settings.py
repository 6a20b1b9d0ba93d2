"""How a unit works: its shifts and hour of leaving, by its lead."""

import pytest
from django.urls import reverse

from teaching.models import UnitSetting
from teaching.record.places import settings_of

pytestmark = pytest.mark.django_db
SAID = {
    "shift_1_name": "day", "shift_1_starts": "07:00", "shift_1_ends": "15:00",
    "shift_2_name": "late", "shift_2_starts": "15:00", "shift_2_ends": "23:00",
    "shift_3_name": "night", "shift_3_starts": "23:00", "shift_3_ends": "07:00",
    "leave_hour": "11",
}


def test_the_page_shows_what_is_in_force(house, lead):
    page = lead.get(reverse("unit-settings", kwargs={"unit": house.own.uid})).content.decode()
    for said in ('value="day"', 'value="07:30"', 'value="19:30"', 'value="12"', "America/New_York"):
        assert said in page


def test_new_shifts_are_in_force_and_the_old_ones_stay_on_record(house, lead, send):
    assert send(lead, "unit-settings", {"unit": house.own.uid}, **SAID).status_code == 303
    now = settings_of(house.own)
    assert [(each["name"], each["starts"], each["ends"]) for each in now.shifts] == [
        ("day", "07:00", "15:00"), ("late", "15:00", "23:00"), ("night", "23:00", "07:00"),
    ]
    assert (now.leave_hour, now.number) == (11, 2)
    assert now.checklist is not None
    assert UnitSetting.objects.filter(unit=house.own).count() == 2


@pytest.mark.parametrize(
    ("said", "field", "sentence"),
    [
        ({"shift_2_ends": ""}, "shift_2_ends", "A shift needs a name, a start and an end."),
        ({"shift_2_name": ""}, "shift_2_name", "A shift needs a name, a start and an end."),
        ({"shift_1_starts": "25:00"}, "shift_1_starts", "Write a time such as 07:30."),
        ({"shift_2_name": "day"}, "shift_1_name", "Two shifts have the same name; give each its own."),
        ({"leave_hour": ""}, "leave_hour", "Write the hour, such as 12."),
        ({"leave_hour": "24"}, "leave_hour", "Write a whole hour from 0 to 23."),
        ({"leave_hour": "noon"}, "leave_hour", "Write a whole hour from 0 to 23."),
        ({key: "" for key in SAID if key.startswith("shift")}, "shift_1_name", "Name at least one shift"),
    ],
)
def test_a_slip_is_named_beside_its_field_and_stores_nothing(house, lead, send, said, field, sentence):
    page = send(lead, "unit-settings", {"unit": house.own.uid}, **SAID | said)
    assert page.status_code == 422
    assert any(sentence in error for error in page.context["form"].errors[field])
    assert settings_of(house.own).number == 1
