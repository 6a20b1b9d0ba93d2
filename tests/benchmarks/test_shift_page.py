"""The shift page of forty people, read from `stay_now`, beside its twin with constant data."""

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from teaching.bedside.shift_page import ShiftPage
from teaching.record.figures import board
from teaching.record.places import ward_of
from tests.benchmarks import twin
from tests.benchmarks.measuring import in_turns, say


@pytest.mark.benchmark
def test_the_shift_page_takes_at_most_three_times_its_twin(forty_people, settings):
    settings.ROOT_URLCONF = "tests.benchmarks.twin"
    unit, now = forty_people.unit, timezone.now()
    rows = board(unit, now)
    page = ShiftPage(unit, ward_of(unit), rows, now)
    twin.CONSTANT |= {"unit": unit, "page": page, "template": "teaching/bedside/this_shift.html"}
    client = Client()
    client.force_login(forty_people.user("amber"))
    addresses = reverse("this-shift", args=[unit.uid]), reverse("twin")
    pages = [client.get(address) for address in addresses]
    assert len(rows) == 40
    assert [page.content.count(b'class="strip"') for page in pages] == [40, 40]
    ours, floor = in_turns(*(lambda address=each: client.get(address) for each in addresses), rounds=40)
    say(f"shift page of 40 people: {ours:.1f} ms, twin {floor:.1f} ms, ratio {ours / floor:.2f} (at most 3)")
    assert ours / floor <= 3
