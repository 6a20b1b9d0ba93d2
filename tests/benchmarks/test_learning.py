"""The unit's learning over 5,000 made-up stays, brought in through the bulk door, and over those still here."""

from time import perf_counter

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from teaching.models import StayNow
from teaching.record.past_stays import record_past_stays
from teaching.record.stays import note_stay_event
from tests.bedside.ward import build_ward
from tests.benchmarks.made_up_unit import made_up_stays
from tests.benchmarks.measuring import say, slowness

STAYS, HERE, AT_ONCE, SECONDS = 5000, 20, 500, 2


@pytest.mark.benchmark
@pytest.mark.django_db
def test_learning_over_five_thousand_stays():
    """The door keeps each stay's share as it comes in; the page, first read in this process, works out every figure."""
    now = timezone.now()
    ward = build_ward(now)
    nurses = [ward.staff[name].clinician for name in ("amber", "basil")]
    here = [ward.stay("Cy", "Ash", f"B{number}") for number in range(HERE)]
    for stay in here:
        ward.teach(stay, ward.stoma(stay), 1, "06")
    past = made_up_stays(ward.unit, nurses, STAYS, now, sessions=2, paired=0.02)
    began = perf_counter()
    for first in range(0, STAYS, AT_ONCE):
        record_past_stays(actor=ward.staff["linden"], unit=ward.unit, stays=past[first : first + AT_ONCE])
    stored = perf_counter()
    assert StayNow.objects.exclude(learned_from="").count() == STAYS
    for stay in here[:4]:  # one short of the next five: they still count as here
        note_stay_event(actor=ward.staff["amber"], stay=stay, kind="left", left_to="home")
    client = Client()
    client.force_login(ward.user("edda"))
    before, opened = slowness(), perf_counter()
    page = client.get(reverse("learning", args=[ward.unit.uid]))
    taken = perf_counter() - opened
    slower = (before + slowness()) / 2
    assert f"{STAYS + HERE} stays" in page.content.decode()
    say(
        f"learning over {STAYS} stays and {HERE} still here: {taken:.2f} s (at most {SECONDS}, "
        f"machine {slower:.2f} times as slow); "
        f"brought in, each with its share, in {stored - began:.0f} s"
    )
    assert taken / slower <= SECONDS
