"""A stay's share in its unit's learning, kept once it has left, and worked out anew when its facts move."""

from datetime import timedelta

import pytest
import time_machine

from teaching.models import StayNow
from teaching.record.learned import keep_shares, shares
from teaching.record.stays import note_stay_event
from tests.bedside.ward import EMPTYING, NIGHT, build_ward

DAY = timedelta(days=1)


@pytest.fixture
def ward(db):
    with time_machine.travel(NIGHT, tick=False):
        yield build_ward()


@pytest.fixture
def gone(ward):
    stay = ward.stay()
    stoma = ward.stoma(stay)
    ward.teach(stay, stoma, 30, ["04", "06", "06", "03", "06"])
    ward.teach(stay, stoma, 6, "06")
    note_stay_event(actor=ward.staff["amber"], stay=stay, kind="left", left_to="home", at=NIGHT)
    return stay


def test_who_left_before_being_independent(ward, gone):
    (share,) = shares(ward.unit, NIGHT)
    assert share == {
        "outcome": "left", "days": 4.0, "month": "2026-05", "result": "not yet", "sessions": 2,
        "tries": {code: [2, True] if code in ("em-when", "em-close") else [1, True] for code in EMPTYING},
    }  # fmt: skip


def test_who_is_still_here_is_not_known_yet(ward):
    ward.stoma(ward.stay())
    (share,) = shares(ward.unit, NIGHT)
    assert (share["outcome"], share["result"], share["month"], share["days"]) == ("", "", "", 4.0)


@pytest.mark.parametrize("kind", ["paused", "stopped"])
def test_no_figures_of_those_who_are_not_taught(ward, kind):
    stay = ward.stay()
    note_stay_event(actor=ward.staff["amber"], stay=stay, kind=kind, why="made up", at=NIGHT)
    assert shares(ward.unit, NIGHT) == []


def test_a_kept_share_is_used_while_it_holds(ward, gone):
    assert keep_shares(ward.unit, NIGHT) == 1
    assert keep_shares(ward.unit, NIGHT) == 0
    StayNow.objects.filter(stay=gone).update(learned={"kept": True})
    assert shares(ward.unit, NIGHT) == [{"kept": True}]
    StayNow.objects.filter(stay=gone).update(revision=StayNow.objects.get(stay=gone).revision + 1)
    assert shares(ward.unit, NIGHT)[0]["sessions"] == 2


def test_another_unit_adds_nothing(ward, gone):
    assert shares(ward.other, NIGHT) == []


@pytest.mark.parametrize("count", [1, 3])
def test_queries_do_not_grow_with_stays(ward, count, django_assert_max_num_queries):
    for number in range(count):
        ward.stoma(ward.stay("Cy", "Ash", f"B{number}"))
    with django_assert_max_num_queries(19):
        assert len(shares(ward.unit, NIGHT)) == count
