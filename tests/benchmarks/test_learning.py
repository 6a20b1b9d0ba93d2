"""The unit's learning over 5,000 made-up stays, brought in through the bulk door."""

from time import perf_counter

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from teaching.models import StayNow
from teaching.record.past_stays import record_past_stays
from tests.bedside.ward import build_ward
from tests.benchmarks.made_up_unit import made_up_stays
from tests.benchmarks.measuring import say

STAYS, AT_ONCE, SECONDS = 5000, 500, 2


@pytest.mark.django_db
def test_learning_over_five_thousand_stays():
    """The door keeps each stay's share as it comes in; the page, first read in this process, works out every figure."""
    now = timezone.now()
    ward = build_ward(now)
    nurses = [ward.staff[name].clinician for name in ("amber", "basil")]
    past = made_up_stays(ward.unit, nurses, STAYS, now, sessions=2, paired=0.02)
    began = perf_counter()
    for first in range(0, STAYS, AT_ONCE):
        record_past_stays(actor=ward.staff["linden"], unit=ward.unit, stays=past[first : first + AT_ONCE])
    stored = perf_counter()
    assert StayNow.objects.exclude(learned_from="").count() == STAYS
    client = Client()
    client.force_login(ward.user("edda"))
    opened = perf_counter()
    page = client.get(reverse("learning", args=[ward.unit.uid]))
    taken = perf_counter() - opened
    assert f"{STAYS} stays" in page.content.decode()
    say(
        f"learning over {STAYS} stays: {taken:.2f} s (at most {SECONDS}); "
        f"brought in, each with its share, in {stored - began:.0f} s"
    )
    assert taken <= SECONDS
