"""A stay's share in its unit's learning, kept once it has left, and worked out anew when its facts move."""

from datetime import timedelta

import pytest
import time_machine

from teaching.models import StayNow
from teaching.record.learned import UnitShares, keep_shares, shares
from teaching.record.stays import note_stay_event
from tests.bedside.ward import EMPTYING, NIGHT, build_ward

DAY, HOUR = timedelta(days=1), timedelta(hours=1)


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
    (share,) = shares(ward.unit, NIGHT, 1).shares
    assert share == {
        "outcome": "left", "days": 4.0, "month": "2026-05", "result": "not yet", "sessions": 2,
        "tries": {code: [2, True] if code in ("em-when", "em-close") else [1, True] for code in EMPTYING},
    }  # fmt: skip


def test_who_is_still_here_is_not_known_yet(ward, gone):
    ward.stoma(ward.stay("Cy", "Ash", "B2"))
    gone_share, share = shares(ward.unit, NIGHT, 1).shares
    assert gone_share["outcome"] == "left"
    assert (share["outcome"], share["result"], share["month"], share["days"]) == ("", "", "", 4.0)


@pytest.mark.parametrize("kind", ["paused", "stopped"])
def test_no_figures_of_those_who_are_not_taught(ward, gone, kind):
    stay = ward.stay("Cy", "Ash", "B2")
    note_stay_event(actor=ward.staff["amber"], stay=stay, kind=kind, why="made up", at=NIGHT)
    assert [share["outcome"] for share in shares(ward.unit, NIGHT, 1).shares] == ["left"]


def test_a_kept_share_is_used_while_it_holds(ward, gone):
    assert keep_shares(ward.unit, NIGHT) == 1
    assert keep_shares(ward.unit, NIGHT) == 0
    StayNow.objects.filter(stay=gone).update(learned={"kept": True})
    assert shares(ward.unit, NIGHT, 1).shares == [{"kept": True}]
    StayNow.objects.filter(stay=gone).update(revision=StayNow.objects.get(stay=gone).revision + 1)
    assert shares(ward.unit, NIGHT, 1).shares[0]["sessions"] == 2


def test_another_unit_adds_nothing(ward, gone):
    assert shares(ward.other, NIGHT, 1).shares == []


@pytest.mark.parametrize("count", [1, 3])
def test_queries_do_not_grow_with_stays(ward, gone, count, django_assert_max_num_queries):
    for number in range(count):
        ward.stoma(ward.stay("Cy", "Ash", f"B{number}"))
    keep_shares(ward.unit, NIGHT)
    with django_assert_max_num_queries(21):
        assert len(shares(ward.unit, NIGHT, 1).shares) == 1 + count


@pytest.fixture
def leave(ward):
    """Somebody opens a stay, is taught once, and leaves at the moment given."""

    def leaves(bed, at):
        with time_machine.travel(at, tick=False):
            stay = ward.stay("Cy", "Ash", bed)
            ward.teach(stay, ward.stoma(stay), 1, "06")
            note_stay_event(actor=ward.staff["amber"], stay=stay, kind="left", left_to="home", at=at)
        return stay

    return leaves


def test_nothing_before_the_first_five_have_left(ward, leave):
    for number in range(4):
        leave(f"B{number}", NIGHT + number * HOUR)
    assert shares(ward.unit, NIGHT + 9 * HOUR, 5) == UnitShares(None, [])
    leave("B4", NIGHT + 4 * HOUR)
    found = shares(ward.unit, NIGHT + 9 * HOUR, 5)
    assert found.until == NIGHT + 4 * HOUR and len(found.shares) == 5


def test_between_two_fives_nothing_that_happens_moves_a_figure(ward, leave):
    """Common practice against finding one person by subtraction, no source: releases in groups, frozen between."""
    amber, running = ward.staff["amber"], ward.stay("Ada", "Moss", "A9")
    stoma, resting = ward.stoma(running), ward.stay("Bo", "Reed", "A8")
    for number in range(5):
        leave(f"B{number}", NIGHT + number * HOUR)
    before = shares(ward.unit, NIGHT + 9 * HOUR, 5)
    assert [share["outcome"] for share in before.shares] == ["left"] * 5 + ["", ""]
    with time_machine.travel(NIGHT + 6 * HOUR, tick=False):
        note_stay_event(actor=amber, stay=resting, kind="paused", why="made up", at=NIGHT + 6 * HOUR)
        ward.teach(running, stoma, 5, "06")
        ward.stay("Dee", "Fern", "A7")
    assert shares(ward.unit, NIGHT + 9 * HOUR, 5) == before
    with time_machine.travel(NIGHT + 7 * HOUR, tick=False):
        note_stay_event(actor=amber, stay=running, kind="left", left_to="home", at=NIGHT + 7 * HOUR)
    assert shares(ward.unit, NIGHT + 9 * HOUR, 5) == before
    for number in range(4):
        leave(f"C{number}", NIGHT + 8 * HOUR)
    after = shares(ward.unit, NIGHT + 9 * HOUR, 5)
    assert [share["outcome"] for share in after.shares] == ["left"] * 10 + [""], "Dee alone is still here"


def test_who_moved_away_since_is_still_among_those_who_were_here(ward, leave):
    stay = ward.stay("Ada", "Moss", "A9")
    leave("B1", NIGHT)
    before = shares(ward.unit, NIGHT + HOUR, 1)
    assert len(before.shares) == 2
    with time_machine.travel(NIGHT + HOUR, tick=False):
        note_stay_event(actor=ward.staff["amber"], stay=stay, kind="moved", unit=ward.other, bed="K1", at=NIGHT + HOUR)
    assert shares(ward.unit, NIGHT + 2 * HOUR, 1) == before
    assert shares(ward.other, NIGHT + 2 * HOUR, 1).shares == []
