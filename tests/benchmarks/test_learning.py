"""The unit's learning over 5,000 made-up stays, brought in through the bulk door."""

from time import perf_counter

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from teaching.record.learned import keep_shares
from teaching.record.past_stays import record_past_stays
from tests.bedside.ward import build_ward
from tests.benchmarks.made_up_unit import made_up_stays
from tests.benchmarks.measuring import say

STAYS, AT_ONCE, SECONDS = 5000, 500, 2


@pytest.mark.benchmark
@pytest.mark.django_db
def test_learning_over_five_thousand_stays():
    """From nothing in this process: the page reads each stay's kept share and works out every figure anew."""
    now = timezone.now()
    ward = build_ward(now)
    nurses = [ward.staff[name].clinician for name in ("amber", "basil")]
    past = made_up_stays(ward.unit, nurses, STAYS, now, sessions=2, paired=0.02)
    began = perf_counter()
    for first in range(0, STAYS, AT_ONCE):
        record_past_stays(actor=ward.staff["linden"], unit=ward.unit, stays=past[first : first + AT_ONCE])
    stored = perf_counter()
    assert keep_shares(ward.unit, now) == STAYS
    kept = perf_counter()
    client = Client()
    client.force_login(ward.user("edda"))
    opened = perf_counter()
    page = client.get(reverse("learning", args=[ward.unit.uid]))
    taken = perf_counter() - opened
    assert f"{STAYS} stays" in page.content.decode()
    say(
        f"learning over {STAYS} stays: {taken:.2f} s (at most {SECONDS}); brought in in {stored - began:.0f} s, "
        f"shares worked out once in {kept - stored:.0f} s"
    )
    assert taken <= SECONDS
