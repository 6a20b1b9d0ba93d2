"""The readiness page: whom a result leans on, by name; who said yes and when; what a facility has accepted."""

import html
import io
import re
from datetime import timedelta

import pdfplumber
import pytest
from django.urls import reverse

from teaching.record.arrangements import arrange_visit, make_arrangement
from teaching.record.cautions import raise_caution
from teaching.record.charts import chart_for
from teaching.record.stays import note_stay_event, plan_home
from tests.bedside.ward import NIGHT

ACCEPTS = {"accepted_by": "Senna Holt", "name": "Larch House", **dict.fromkeys(
    ("is_nurse", "emptying", "leaks", "changes", "day_and_night"), True)}  # fmt: skip


@pytest.fixture
def read(amber, ada, stoma):
    """The words of Ada's readiness page as it stands."""

    def words():
        answer = amber.get(reverse("readiness", args=[ada.uid])).content.decode()
        return " ".join(html.unescape(re.sub("<[^>]+>", " ", answer)).split())

    return words


@pytest.fixture
def to_facility(ward, ada):
    plan_home(actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(days=2), goes_to="facility")


def test_a_facility_that_has_accepted_is_named_and_nobody_is_said_to_be_missing(read, ward, ada, to_facility):
    make_arrangement(actor=ward.staff["amber"], stay=ada, code="facility", state="made", details=ACCEPTS)
    said = read()
    assert "Senna Holt, Larch House: has accepted emptying, leaks and changes, day and night." in said
    assert "nobody at any hour" not in said


def test_a_facility_that_has_not_accepted_is_said_so(read, to_facility):
    assert "no nurse there has accepted all of the stoma's care yet" in read()


def test_a_helper_stands_with_both_yeses_and_hours_and_beside_the_person(read, ward, ada):
    helper = ward.helper(ada)
    said = read()
    both = rf"{helper.name}[^:]*: Ada Fernhollow said yes \w+ \d+ \w+ \d\d:\d\d; {helper.name} said yes"
    apart = rf"A full pouch\. Ada Fernhollow: at no hour\. {helper.name}[^:]*: at no hour\. Together: nobody"
    assert re.search(both, said) and re.search(apart, said)


def test_each_arrangement_says_who_wrote_it_down_and_when(read, amber, ward, ada):
    staff = ward.staff
    make_arrangement(actor=staff["basil"], stay=ada, code="spare-kit", state="asked")
    make_arrangement(actor=staff["amber"], stay=ada, code="spare-kit", state="made")
    arrange_visit(actor=staff["basil"], stay=ada, at=NIGHT + timedelta(days=4), state="made", accepted_by="Nurse B")
    said, paper = read(), draft(amber, ada)
    for each in (said, paper):
        assert re.search(r"Kit for the way home:? made;? by Amber Oakley, Wed 13 May 02:14", each)
        assert re.search(r"to look only, accepted by Nurse B;? by Basil Thorne, Wed 13 May 02:14", each)
        assert re.search(r"Follow-up with the surgical team:? not recorded", each)
        assert not re.search(r"not recorded;? by", each)


def test_a_paused_stay_asks_for_nothing_and_keeps_cautions_and_arrangements(read, amber, ward, ada, stoma):
    make_arrangement(actor=ward.staff["amber"], stay=ada, code="spare-kit", state="made")
    raise_caution(actor=ward.staff["amber"], stay=ada, stoma=stoma, sign="sore-skin", at=NIGHT)
    for each in (read(), draft(amber, ada)):
        assert "Not yet." in each and "What is wanting" in each, "while teaching goes on"
    ward.teach(ada, stoma, 30, levels="04")
    note_stay_event(actor=ward.staff["amber"], stay=ada, kind="paused", why="intensive care")
    for each in (read(), draft(amber, ada)):
        assert "Paused." in each and "nothing is asked of anybody while it lasts" in each
        assert re.search(r"Kit for the way home:? made;? by Amber Oakley", each)
        assert chart_for(ada).cautions[0].words in each
        assert "Follow-up with the surgical team" in each
        for asked in ("Not yet.", "What is wanting", "What is not known", "by Fri", "nobody at any", "To be shown"):
            assert asked.lower() not in each.lower(), asked


def draft(client, stay):
    pdf = client.get(reverse("readiness-draft", args=[stay.uid])).content
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        return " ".join(" ".join(each.extract_text() for each in opened.pages).split())
