"""Scope: what exists for the person asking."""

import uuid

import pytest

from teaching.access.scope import NotThere, find, held_by, may, stays_for, units_for
from teaching.models import User
from teaching.record import staff
from teaching.rules.vocabulary import ROLES
from tests.access.house import HOUSE

pytestmark = pytest.mark.django_db


def fresh(user):
    """The user as the next request would read it."""
    return User.objects.get(pk=user.pk)


def test_a_role_counts_on_the_unit_where_it_is_held(house):
    nurse = house.users["ward-nurse"]
    assert may(nurse, "see_person", house.own)
    assert not may(nurse, "see_person", house.other)
    assert list(units_for(nurse, "see_person")) == [house.own]
    assert list(stays_for(nurse, "see_person")) == [house.stay]
    assert list(stays_for(house.users["stranger"], "see_person")) == []


def test_a_stoma_nurse_works_in_the_whole_hospital(house):
    elsewhere = house.open_stay("B1", unit=house.other)
    nurse = house.users["stoma-nurse"]
    assert list(units_for(nurse, "see_shift")) == [house.own, house.other]
    assert set(stays_for(nurse, "see_person")) == {house.stay, elsewhere}


def test_the_newest_number_of_a_membership_counts(house):
    nurse = house.users["ward-nurse"]
    for act, held in ((staff.revoke_role, False), (staff.grant_role, True), (staff.revoke_role, False)):
        act(actor=HOUSE, clinician=nurse.clinician, role="ward-nurse", unit=house.own)
        assert may(fresh(nurse), "see_person", house.own) is held


def test_two_roles_add_up_and_a_nursing_educator_sees_the_chart(house):
    educator = house.users["educator"]
    assert not may(educator, "see_person", house.own)
    staff.grant_role(actor=HOUSE, clinician=educator.clinician, role="ward-nurse", unit=house.own)
    both = fresh(educator)
    assert may(both, "see_person", house.own) and may(both, "see_counts", house.own)


@pytest.mark.parametrize("role", sorted(ROLES))
def test_charts_are_for_those_who_nurse_or_plan_the_leaving(house, role):
    """45 CFR 164.502(b): educators, leads and auditors see counts, not charts."""
    sees = {"ward-nurse", "stoma-nurse", "assistant", "student", "planner"}
    assert may(house.users[role], "see_person", house.own) is (role in sees)


def test_a_closed_account_holds_nothing(house):
    nurse = house.users["ward-nurse"]
    nurse.is_active = False
    assert held_by(nurse).anywhere == frozenset()


def test_memberships_are_read_once_a_request(house, django_assert_num_queries):
    nurse = fresh(house.users["ward-nurse"])
    with django_assert_num_queries(1):
        for permission in ("see_person", "open_stay", "manage_staff", "see_trail"):
            may(nurse, permission, house.own)
            may(nurse, permission)


def test_what_stands_side_by_side_in_an_address_belongs_together(house):
    nurse, named = house.users["stoma-nurse"], house.named
    second = house.open_stay("A2")
    other_stoma = house.add_stoma(second)
    both, unit = find(nurse, {"stay": named["stay"], "stoma": named["stoma"], "learner": named["learner"]})
    assert (both["stoma"], unit) == (house.stoma, house.own)
    for wrong in (
        {"stay": named["stay"], "stoma": other_stoma.uid},
        {"stoma": other_stoma.uid, "learner": named["learner"]},
        {"unit": house.other.uid, "stay": named["stay"]},
        {"unit": house.other.uid, "clinician": named["clinician"]},
        {"stay": uuid.uuid4()},
    ):
        with pytest.raises(NotThere):
            find(nurse, wrong)


def test_a_person_who_moves_leaves_the_old_units_sight(house):
    from teaching.record import stays

    stays.note_stay_event(actor=house.actor, stay=house.stay, kind="moved", unit=house.other, bed="3")
    with pytest.raises(NotThere):
        find(house.users["ward-nurse"], {"stay": house.stay.uid})
    assert list(stays_for(house.users["stranger"], "see_person")) == [house.stay]
