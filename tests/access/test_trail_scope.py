"""Whose acts that belong to no unit an auditor reads: those of the own units' people; all of them with every unit."""

import pytest

from teaching.models import Membership
from teaching.record import staff
from teaching.record.trail import leave_read_line
from teaching.record.trail_lines import lines_of
from tests.access.house import HOUSE

MANY = 1000


def sign_in(house, who, outcome="done"):
    leave_read_line(actor=house.actor_of(who) if who else HOUSE, verb="sign_in", outcome=outcome)


def listed(*units):
    """Who signed in, of the lines that an auditor of these units reads."""
    return [line.who for line in lines_of(units, None, MANY) if line.verb == "sign_in"]


@pytest.mark.parametrize("who", ["ward-nurse", "lead", "auditor"])
def test_signing_in_is_listed_for_the_unit_where_that_person_works(house, who):
    sign_in(house, who)
    assert listed(house.own) == [f"{who.capitalize()} Invented"]
    assert listed(house.other) == []


def test_of_somebody_from_another_unit_it_is_not_there(house):
    sign_in(house, "stranger")
    assert listed(house.own) == []
    assert listed(house.other) == ["Stranger Invented"]


def test_a_stoma_nurse_works_on_every_unit(house):
    sign_in(house, "stoma-nurse")
    assert listed(house.own) == listed(house.other) == ["Stoma-nurse Invented"]


def test_whoever_worked_there_once_is_listed_still(house):
    sign_in(house, "ward-nurse")
    nurse = house.users["ward-nurse"].clinician
    staff.revoke_role(actor=HOUSE, clinician=nurse, role="ward-nurse", unit=house.own)
    assert Membership.objects.filter(clinician=nurse).count() == 2
    assert listed(house.own) == ["Ward-nurse Invented"]


def test_what_nobody_known_did_is_for_who_audits_every_unit(house):
    sign_in(house, "", "refused")
    sign_in(house, "nobody")
    assert listed(house.own) == listed(house.other) == []
    assert listed(house.own, house.other) == ["Nobody Invented", ""]


def test_what_was_only_looked_at_without_a_unit_is_no_act(house):
    sign_in(house, "auditor", "read")
    assert listed(house.own, house.other) == []


def test_no_unit_at_all_lists_nothing(house):
    sign_in(house, "ward-nurse")
    assert lines_of([], None, MANY) == []
