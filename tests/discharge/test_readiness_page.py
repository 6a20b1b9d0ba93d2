"""The readiness page: whom a result leans on, by name; who said yes and when; what a facility has accepted."""

import html
import re
from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.record.arrangements import make_arrangement
from teaching.record.stays import plan_home
from tests.bedside.ward import NIGHT

ACCEPTS = {"accepted_by": "Senna Holt", "name": "Larch House", **dict.fromkeys(
    ("is_nurse", "emptying", "leaks", "changes", "day_and_night"), True)}  # fmt: skip


@pytest.fixture
def page(amber, ada, stoma):
    """The words of Ada's readiness page as it stands."""

    def words():
        answer = amber.get(reverse("readiness", args=[ada.uid])).content.decode()
        return " ".join(html.unescape(re.sub("<[^>]+>", " ", answer)).split())

    return words


@pytest.fixture
def to_facility(ward, ada):
    plan_home(actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(days=2), goes_to="facility")


def test_a_facility_that_has_accepted_is_named_and_nobody_is_said_to_be_missing(page, ward, ada, to_facility):
    make_arrangement(actor=ward.staff["amber"], stay=ada, code="facility", state="made", details=ACCEPTS)
    said = page()
    assert "Senna Holt, Larch House: has accepted emptying, leaks and changes, day and night." in said
    assert "nobody at any hour" not in said


def test_a_facility_that_has_not_accepted_is_said_so(page, to_facility):
    assert "no nurse there has accepted all of the stoma's care yet" in page()


def test_a_helper_stands_with_both_yeses_and_hours_and_beside_the_person(page, ward, ada):
    helper = ward.helper(ada)
    said = page()
    both = rf"{helper.name}[^:]*: Ada Fernhollow said yes \w+ \d+ \w+ \d\d:\d\d; {helper.name} said yes"
    apart = rf"A full pouch\. Ada Fernhollow: at no hour\. {helper.name}[^:]*: at no hour\. Together: nobody"
    assert re.search(both, said) and re.search(apart, said)
