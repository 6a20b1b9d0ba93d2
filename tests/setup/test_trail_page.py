"""The trail on screen: where an auditor lands, whose lines stand there, and whether the trail holds."""

import pytest
from django.db import connection
from django.db.models import Q
from django.urls import reverse

from teaching.models import TrailLine
from teaching.models.guards import lift_guards
from teaching.record import staff
from teaching.record.actor import Actor
from teaching.record.trail import leave_read_line
from teaching.setup.trail_page import SHOWN
from tests.bedside.reading import words

TRAIL = "/trail/"


@pytest.fixture
def auditor(signed_in, settings, tmp_path):
    settings.VAR_DIR = tmp_path  # the newest seal that another test wrote down is none of this database
    return signed_in("auditor")


def fill(house, signed_in, count):
    """So many reads of a page of the own unit."""
    nurse, path = signed_in("ward-nurse"), reverse("this-shift", args=[house.own.uid])
    for _ in range(count):
        nurse.get(path)


def test_an_auditor_lands_on_the_trail(auditor):
    assert auditor.get(reverse("home"))["Location"] == TRAIL
    assert f'href="{TRAIL}"' in auditor.get(TRAIL).content.decode()


def test_it_says_who_did_what_on_the_own_unit_newest_first(house, signed_in, auditor):
    fill(house, signed_in, 1)
    page = words(auditor.get(TRAIL))
    assert "Opened this shift: Ward-nurse Invented, ward nurse" in page
    assert page.index("Opened this shift") < page.index("Opened a stay")


def test_no_person_in_care_is_named(house, auditor):
    page = words(auditor.get(TRAIL))
    assert "Opened a stay" in page
    for said in (house.stay.now.name, "Person A1", "Joan"):
        assert said not in page


def test_lines_of_another_unit_are_not_there(house, signed_in, auditor):
    signed_in("stranger").get(reverse("this-shift", args=[house.other.uid]))
    assert "Stranger" not in words(auditor.get(TRAIL))
    staff.grant_role(
        actor=Actor(clinician=None), clinician=house.users["auditor"].clinician, role="auditor", unit=house.other
    )
    assert "Stranger Invented" in words(auditor.get(TRAIL))


def test_it_holds_and_says_so_when_asked(auditor):
    assert "It is as it was written" not in words(auditor.get(TRAIL))
    page = words(auditor.get(TRAIL, {"examine": "now"}))
    assert f"It is as it was written: {TrailLine.objects.count() - 1} lines" in page, "but the line of this very read"


def test_a_touched_line_is_said(house, auditor):
    line = TrailLine.objects.order_by("pk")[3]
    lift_guards(connection)
    TrailLine.objects.filter(pk=line.pk).update(outcome="undone")
    page = words(auditor.get(TRAIL, {"examine": "now"}))
    assert "It is not as it was written" in page and f"Line {line.pk} is not as it was written." in page


def test_older_ones_a_page_at_a_time_each_line_once(house, signed_in, auditor):
    fill(house, signed_in, SHOWN)
    theirs = [str(user.clinician.uid) for name, user in house.users.items() if name not in ("nobody", "stranger")]
    acts = Q(unit="", actor__in=theirs) & ~Q(outcome="read")
    own = TrailLine.objects.filter(Q(unit=str(house.own.uid)) | acts).order_by("-pk").values_list("pk", flat=True)
    expected, before, seen = list(own), "", []
    while True:
        page = auditor.get(TRAIL, {"before": before} if before else {})
        seen.append(len(page.context["rows"]))
        before = page.context["before"]
        if before is None:
            break
        assert before == expected[SHOWN * len(seen) - 1]
    assert sum(seen) == len(expected) and set(seen[:-1]) == {SHOWN}


@pytest.mark.parametrize("before", ["soon", "-1", "1.5", "9" * 19, "٣"])
def test_a_place_that_is_none_is_not_there(auditor, before):
    assert auditor.get(TRAIL, {"before": before}).status_code == 404


@pytest.mark.parametrize("count", [0, 30])
def test_it_costs_the_same_queries_however_many_lines(house, signed_in, auditor, assert_selects, count):
    fill(house, signed_in, count)
    auditor.get(TRAIL)
    with assert_selects(8):
        auditor.get(TRAIL)


@pytest.mark.parametrize(("who", "status"), [("lead", 403), ("educator", 403), ("ward-nurse", 403), ("auditor", 200)])
def test_for_auditors_alone(signed_in, who, status):
    assert signed_in(who).get(TRAIL).status_code == status


def test_signing_in_stands_there_with_the_people_of_the_own_unit(house, auditor):
    for who in ("ward-nurse", "stranger"):
        leave_read_line(actor=house.actor_of(who), verb="sign_in", outcome="done")
    rows = auditor.get(TRAIL).context["rows"]
    assert rows[0].who == "Ward-nurse Invented" and "Stranger" not in " ".join(row.who for row in rows)
