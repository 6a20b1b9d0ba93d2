"""The discharge list of forty people, from what is kept beside its twin with constant data; and all forty stale."""

from statistics import median
from time import perf_counter

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from teaching.discharge.going_home_page import GoingHomePage
from teaching.models import StayNow
from teaching.record.outlook import going_home
from teaching.record.places import ward_of
from tests.benchmarks import twin
from tests.benchmarks.measuring import in_turns, say, slowness

STALE_MS = 400


@pytest.mark.benchmark
def test_the_list_takes_at_most_three_times_its_twin(forty_people, settings):
    settings.ROOT_URLCONF = "tests.benchmarks.twin"
    unit, now = forty_people.unit, timezone.now()
    rows = going_home(unit, now)
    page = GoingHomePage(unit, ward_of(unit), rows, now)
    twin.CONSTANT |= {"unit": unit, "page": page, "template": "teaching/discharge/going_home.html"}
    client = Client()
    client.force_login(forty_people.user("amber"))
    addresses = reverse("going-home", args=[unit.uid]), reverse("twin")
    pages = [client.get(address) for address in addresses]
    assert [page.content.count(b'class="strip"') for page in pages] == [40, 40]
    ours, floor = in_turns(*(lambda address=each: client.get(address) for each in addresses), rounds=40)
    say(f"discharge list of 40 people: {ours:.1f} ms, twin {floor:.1f} ms, ratio {ours / floor:.2f} (at most 3)")
    assert ours / floor <= 3


@pytest.mark.benchmark
def test_all_forty_worked_out_anew(forty_people):
    taken, slower = [], []
    for _ in range(5):
        StayNow.objects.update(outlook_from="")
        began = perf_counter()
        assert len(going_home(forty_people.unit, timezone.now())) == 40
        taken.append((perf_counter() - began) * 1000)
        slower.append(slowness())
    say(f"discharge list of 40 people, all stale: {median(taken):.0f} ms "
        f"(at most {STALE_MS}, machine {median(slower):.2f} times as slow)")  # fmt: skip
    assert median(taken) / median(slower) <= STALE_MS
