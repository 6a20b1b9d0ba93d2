"""A unit lead and the staff: registering, first passwords shown once, roles, closing."""

import re

import pytest
from django.test import Client
from django.urls import reverse

from teaching.access.roster import roster
from teaching.models import Clinician, Membership, User
from teaching.record import staff
from tests.access.house import HOUSE, PASSWORD

pytestmark = pytest.mark.django_db
RUTH = {"name": "Ruth Invented", "grade": "registered", "role": "ward-nurse", "username": "ruth"}
STAFF_LIST = 10


def unit_of(house):
    return {"unit": house.own.uid}


def member(house, who="ward-nurse"):
    return {"unit": house.own.uid, "clinician": house.users[who].clinician.uid}


def password_on(page):
    return re.search(r"[a-z0-9]{4}(?:-[a-z0-9]{4}){3}(?=<)", page.content.decode())[0]


def roles_of(house, who):
    return next(each.roles for each in roster(house.own) if each.clinician == house.users[who].clinician)


def test_a_registered_nurse_signs_in_with_the_password_shown_once(house, lead, send, client):
    page = send(lead, "register-nurse", unit_of(house), **RUTH)
    password = password_on(page)
    user = User.objects.get(username="ruth")
    assert page.status_code == 200
    assert user.check_password(password) and user.must_change_password
    made = [each for each in roster(house.own) if each.name == "Ruth Invented"]
    assert [(each.grade, each.roles) for each in made] == [("registered", ("ward-nurse",))]
    shown = lead.get(reverse("staff-member", kwargs={"unit": house.own.uid, "clinician": user.clinician.uid}))
    assert password not in shown.content.decode()
    client.post(reverse("sign-in"), {"username": "ruth", "password": password})
    assert client.get(reverse("home")).url == reverse("change-password")


def test_sent_twice_it_is_stored_once_and_the_password_is_not_shown_again(house, lead):
    path = reverse("register-nurse", kwargs=unit_of(house))
    body = {"form_key": "6f1de3a8-5c0c-4f6e-9d0a-0d3d3c1d3b11", **RUTH}
    first, second = lead.post(path, body), lead.post(path, body)
    assert password_on(first)
    assert second.status_code == 303
    assert User.objects.filter(username="ruth").count() == 1
    assert "First password" not in lead.get(second.url).content.decode()


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"name": ""}, "Write the name."),
        ({"grade": ""}, "Choose the grade."),
        ({"role": ""}, "Choose the first role."),
        ({"role": "stoma-nurse"}, "not one of the available choices"),
        ({"username": ""}, "Write a sign-in name."),
        ({"username": "LEAD"}, "This sign-in name is taken; choose another."),
        ({"grade": "assistant"}, "The role of ward nurse is for a registered nurse or stoma nurse."),
        ({"role": "student"}, "The role of student is for a student nurse."),
        ({"name": "x" * 121}, "at most 120 characters"),
    ],
)
def test_a_slip_is_named_beside_its_field_and_stores_nothing(house, lead, send, said, sentence):
    before = (Clinician.objects.count(), Membership.objects.count(), User.objects.count())
    page = send(lead, "register-nurse", unit_of(house), **RUTH | said)
    assert page.status_code == 422
    field = "role" if sentence.startswith("The role of") else next(iter(said))
    assert any(sentence in error for error in page.context["form"].errors[field])
    assert sentence in page.content.decode()
    assert (Clinician.objects.count(), Membership.objects.count(), User.objects.count()) == before


def test_a_role_is_given_and_taken_back(house, lead, send):
    send(lead, "grant-role", member(house), role="educator")
    assert roles_of(house, "ward-nurse") == ("ward-nurse", "educator")
    send(lead, "revoke-role", member(house) | {"role": "ward-nurse"})
    assert roles_of(house, "ward-nurse") == ("educator",)
    send(lead, "revoke-role", member(house) | {"role": "educator"})
    page = lead.get(reverse("staff", kwargs=unit_of(house))).content.decode()
    assert "no role now" in page


def test_a_role_that_is_held_is_not_offered_and_one_not_held_not_taken_back(house, lead, send):
    assert send(lead, "grant-role", member(house), role="ward-nurse").status_code == 422
    page = send(lead, "revoke-role", member(house) | {"role": "planner"})
    assert (page.status_code, roles_of(house, "ward-nurse")) == (422, ("ward-nurse",))
    assert "This person does not hold it." in page.content.decode()


def test_a_lead_neither_raises_nor_strips_nor_closes_themselves(house, lead, send):
    mine = member(house, "lead")
    for name, more, said in (
        ("grant-role", {}, {"role": "auditor"}),
        ("revoke-role", {"role": "lead"}, {}),
        ("close-account", {}, {}),
        ("give-first-password", {}, {}),
    ):
        assert send(lead, name, mine | more, **said).status_code == 422, name
    assert roles_of(house, "lead") == ("lead",)
    assert User.objects.get(username="lead").is_active


def test_a_closed_sign_in_ends_where_it_is_in_use(house, lead, nurse, send):
    assert nurse.get(reverse("setup")).status_code == 200
    send(lead, "close-account", member(house))
    assert nurse.get(reverse("setup")).status_code == 302
    assert "closed" in lead.get(reverse("staff", kwargs=unit_of(house))).content.decode()


def test_a_lost_password_is_replaced_and_the_old_one_is_dead(house, lead, nurse, send):
    password = password_on(send(lead, "give-first-password", member(house)))
    user = User.objects.get(username="ward-nurse")
    assert user.check_password(password) and not user.check_password(PASSWORD)
    assert user.must_change_password
    assert nurse.get(reverse("setup")).url.startswith(reverse("sign-in"))


def test_a_name_locked_by_wrong_tries_is_free_again_with_a_new_password(house, lead, send):
    away = Client()
    for _ in range(7):
        last = away.post(reverse("sign-in"), {"username": "ward-nurse", "password": "wrong and wrong"})
    assert last.status_code == 429
    password = password_on(send(lead, "give-first-password", member(house)))
    assert away.post(reverse("sign-in"), {"username": "ward-nurse", "password": password}).status_code == 302


def test_whoever_also_works_elsewhere_is_not_this_leads_to_close(house, lead, send):
    nurse = house.users["ward-nurse"]
    staff.grant_role(actor=HOUSE, clinician=nurse.clinician, role="planner", unit=house.other)
    for name in ("close-account", "give-first-password"):
        page = send(lead, name, member(house))
        assert page.status_code == 422
        assert "also works where you are not the lead" in page.content.decode()
    nurse.refresh_from_db()
    assert nurse.is_active and nurse.check_password(PASSWORD)
    leader = house.users["lead"].clinician
    staff.grant_role(actor=HOUSE, clinician=leader, role="lead", unit=house.other)
    assert send(lead, "close-account", member(house)).status_code == 303


def test_somebody_without_a_sign_in_gets_one(house, lead, send):
    clinician = staff.register_clinician(actor=HOUSE, name="Pat Invented", grade="other")
    staff.grant_role(actor=HOUSE, clinician=clinician, role="planner", unit=house.own)
    named = {"unit": house.own.uid, "clinician": clinician.uid}
    assert send(lead, "close-account", named).status_code == 422
    assert password_on(send(lead, "open-account", named, username="pat"))
    assert User.objects.get(username="pat").clinician == clinician


@pytest.mark.parametrize("more", [0, 2])
def test_the_staff_list_costs_the_same_for_one_more_and_three_more(house, lead, assert_selects, more):
    for number in range(1 + more):
        house.somebody(f"extra-{number}", "educator")
    lead.get(reverse("staff", kwargs=unit_of(house)))
    with assert_selects(STAFF_LIST):
        lead.get(reverse("staff", kwargs=unit_of(house)))
