"""`load_demo`: at any hour, only into an empty record, and the sign-ins it prints work."""

import io
import re
from datetime import UTC, datetime, timedelta

import pytest
import time_machine
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from teaching.management.demo.cast import CAST
from teaching.management.demo.past import HOW_MANY
from teaching.management.demo.play import EVERYONE, play
from teaching.models import Stay, StayNow, TrailLine, Unit, User
from teaching.record.kept_papers import newest_paper
from teaching.record.outlook import going_home
from teaching.rules.paper_kinds import READINESS
from tests.verbs import VERBS

MOMENTS = (
    datetime(2026, 1, 1, 0, 1, tzinfo=UTC),
    datetime(2026, 3, 29, 1, 30, tzinfo=UTC),  # the clocks in London went forward half an hour ago
    datetime(2026, 10, 25, 1, 30, tzinfo=UTC),  # and back
    datetime(2026, 7, 1, 22, 58, tzinfo=UTC),  # two minutes before midnight there
)


@pytest.mark.parametrize("now", MOMENTS, ids=lambda now: f"{now:%d %b %H:%M}")
def test_it_loads_at_any_hour_of_any_day(db, now):
    with time_machine.travel(now, tick=False):
        play(now)
        listed = [each for unit in Unit.objects.all() for each in going_home(unit, now)]
    assert Stay.objects.count() == len(EVERYONE) + HOW_MANY
    wanting = [each for each in listed if not each.outlook.makes_it]
    assert wanting
    assert {each.name: each.outlook.helps for each in wanting if each.outlook.helps.split()[0] not in VERBS} == {}


def test_a_now_in_the_future_or_without_a_zone_is_refused(db):
    with pytest.raises(CommandError, match="future"):
        call_command("load_demo", now=timezone.now() + timedelta(days=1), stdout=io.StringIO())
    with pytest.raises(CommandError):
        call_command("load_demo", "--now", "2026-05-13T14:00", stdout=io.StringIO())
    assert not Unit.objects.exists()


@pytest.fixture(scope="module")
def said(module_record):
    """Loaded once, for the tests below, which only read it; those above need an empty record."""
    out, err = io.StringIO(), io.StringIO()
    call_command("load_demo", stdout=out, stderr=err)
    return out.getvalue(), err.getvalue()


@pytest.mark.django_db
def test_the_command_prints_sign_ins_that_work(said):
    table, progress = said
    for worker in CAST:
        row = re.search(rf"^  {worker.username}\s+((?:\w+ ){{3}}\w+)\s+{worker.name}", table, re.MULTILINE)
        user = User.objects.get(username=worker.username)
        assert user.check_password(row[1])
        assert not user.must_change_password
    assert "Ada Fernhollow" in progress
    assert "Ada Fernhollow" not in table


@pytest.mark.django_db
@pytest.mark.parametrize(("family", "result", "changed"), [
    ("Fernhollow", "Self-caring", False),
    ("Underhill", "With a named helper", True),
])
def test_a_signed_record_says_what_the_page_says_and_a_cover_sheet_is_offered_where_it_is_due(
    said, family, result, changed
):
    stay = StayNow.objects.get(name__endswith=family).stay
    client = Client()
    client.force_login(User.objects.get(username="piers"))
    page = client.get(reverse("readiness", args=[stay.uid])).content.decode()
    kept = newest_paper(stay, READINESS).content
    assert kept["result"] == result and f"<strong>{result}.</strong>" in page
    assert kept["gaps"] == kept["missing"] == []
    assert not [line for line in kept["arrangements"] if line["name"].startswith("Kit until") and "not" in line["said"]]
    assert ("Cover sheet: what changed" in page) is ("Changed since signing." in page) is changed


@pytest.mark.django_db
def test_a_second_load_is_refused_and_changes_nothing(said):
    before = (Stay.objects.count(), TrailLine.objects.count())
    with pytest.raises(CommandError, match="holds units or people"):
        call_command("load_demo", stdout=io.StringIO(), stderr=io.StringIO())
    assert (Stay.objects.count(), TrailLine.objects.count()) == before
