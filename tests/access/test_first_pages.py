"""Where each role lands after signing in: where its work is."""

import pytest
from django.urls import resolve, reverse

from teaching.rules.vocabulary import ROLES

LANDS = {
    "ward-nurse": "this-shift", "stoma-nurse": "this-shift", "assistant": "this-shift", "student": "this-shift",
    "planner": "going-home", "educator": "nurses-by-skill", "lead": "setup", "auditor": "trail",
}  # fmt: skip


def test_every_role_stands_here():
    assert set(LANDS) == set(ROLES)


@pytest.mark.parametrize("role", LANDS)
def test_each_lands_where_its_work_is_and_is_let_in(role, signed_in):
    client = signed_in(role)
    address = client.get(reverse("home"))["Location"]
    assert resolve(address).url_name == LANDS[role]
    assert client.get(address).status_code == 200


def test_whoever_holds_no_role_is_told_so(signed_in):
    page = signed_in("nobody").get(reverse("home"))
    assert page.status_code == 200 and "No role on any unit yet." in page.content.decode()
