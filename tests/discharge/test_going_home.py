"""The list of who goes home when: by day, those who will not make it first, kept while it holds."""

from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from teaching.models import StayNow
from teaching.record.outlook import going_home
from teaching.record.stays import note_stay_event, plan_home
from tests.bedside.reading import words as text_of
from tests.bedside.ward import NIGHT

DAY = timedelta(days=1)
BUDGET = 10


def leaving(ward, bed, days, name="Person"):
    stay = ward.stay(name, "Invented", bed)
    ward.stoma(stay)
    plan_home(actor=ward.staff["amber"], stay=stay, at=NIGHT + days * DAY if days is not None else None)
    return stay


def listed(client, ward, name="going-home"):
    return text_of(client.get(reverse(name, args=[ward.unit.uid])))


def test_days_with_people_under_them_in_order(ward, amber):
    leaving(ward, "A3", None, "Nan")
    leaving(ward, "A2", 4, "Bo")
    leaving(ward, "A1", 1, "Cy")
    told = listed(amber, ward)
    found = [told.index(words) for words in ("Tomorrow, Thu 14 May", "Cy Invented", "Sun 17 May", "Bo Invented",
                                             "No day of leaving planned", "Nan Invented")]
    assert found == sorted(found)


def test_each_with_why_and_the_one_thing_that_would_help_most(ward, amber):
    leaving(ward, "A1", 1)
    told = listed(amber, ward)
    assert "Not yet." in told
    assert "What would help most: Arrange kit until the first delivery (whoever plans the leaving, " in told


def test_friday_to_monday(ward, amber):
    """NIGHT is Wednesday 13 May: Friday is in two days, Monday in five."""
    for bed, days in (("A1", 1), ("A2", 2), ("A3", 5), ("A4", 6), ("A5", None)):
        leaving(ward, bed, days, f"Name{bed}")
    told = listed(amber, ward, "weekend")
    assert [f"Name{bed}" in told for bed in ("A1", "A2", "A3", "A4", "A5")] == [False, True, True, False, False]


@pytest.mark.parametrize(
    ("now", "days", "on_it"), [(3, 3, True), (3, 5, True), (5, 5, True), (6, 9, True), (6, 6, False)]
)
def test_the_weekend_that_has_begun_is_the_one_meant(ward, signed_in, now, days, on_it):
    leaving(ward, "A1", days, "Cy")
    with time_machine.travel(NIGHT + now * DAY, tick=False):
        assert ("Cy Invented" in listed(signed_in("amber"), ward, "weekend")) is on_it


def test_paused_is_said_and_prompts_nothing(ward, amber):
    stay = leaving(ward, "A1", 1)
    note_stay_event(actor=ward.staff["amber"], stay=stay, kind="paused", why="intensive care")
    told = listed(amber, ward)
    assert "Teaching is paused." in told
    assert "What would help most" not in told


def test_what_was_worked_out_is_kept_and_used_only_while_it_holds(ward):
    stay = leaving(ward, "A1", 1)
    first = going_home(ward.unit, NIGHT)
    kept = StayNow.objects.get(stay=stay)
    assert kept.outlook == first[0].outlook.plain()
    StayNow.objects.filter(stay=stay).update(outlook=kept.outlook | {"why": "kept"})
    assert going_home(ward.unit, NIGHT)[0].outlook.why == "kept"
    ward.helper(stay)
    assert going_home(ward.unit, NIGHT)[0].outlook.why != "kept"
    StayNow.objects.filter(stay=stay).update(outlook=kept.outlook | {"why": "kept"})
    assert going_home(ward.unit, NIGHT + 5 * DAY)[0].outlook.why != "kept"


def test_what_was_kept_by_an_older_edition_is_worked_out_anew(ward):
    """It named no edition of its own and held no plan."""
    stay = leaving(ward, "A1", 1)
    fresh = going_home(ward.unit, NIGHT)[0].outlook
    kept = StayNow.objects.get(stay=stay)
    old = {name: said for name, said in kept.outlook.items() if name != "plan"} | {"helps": "Not told yet."}
    StayNow.objects.filter(stay=stay).update(outlook=old, outlook_from=kept.outlook_from.partition(" outlook ")[0])
    assert going_home(ward.unit, NIGHT)[0].outlook == fresh
    assert StayNow.objects.get(stay=stay).outlook == fresh.plain()


@pytest.mark.parametrize("count", [1, 3])
def test_queries_do_not_grow_with_people(ward, amber, count, assert_selects):
    for number in range(count):
        leaving(ward, f"A{number}", 1)
    listed(amber, ward)
    with assert_selects(BUDGET):
        listed(amber, ward)


def test_another_unit_is_not_there(ward, signed_in):
    assert signed_in("wilma").get(reverse("going-home", args=[ward.unit.uid])).status_code == 404
    assert signed_in("edda").get(reverse("going-home", args=[ward.unit.uid])).status_code == 403
