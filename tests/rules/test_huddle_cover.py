"""Who teaches when a change is due: ticked, and signed off then."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from teaching.record.sessions import skill_for
from teaching.rules.board import BoardRow, Due
from teaching.rules.facts import Appointment, Stoma
from teaching.rules.huddle_cover import DueChange, Holder, cover, planned_changes, skill_to_teach, soon
from teaching.rules.policy import DEFAULT
from teaching.rules.reasons import words
from teaching.rules.vocabulary import STOMA_KINDS
from teaching.rules.ward import Ward

WARD = Ward("Europe/London")
NOW = datetime(2026, 5, 13, 9, tzinfo=UTC)  # Wednesday, 10:00 on the ward
THURSDAY = NOW + timedelta(days=1)
DAY = (date(2026, 5, 14), "day")
ALWAYS = (NOW - timedelta(days=300), NOW + timedelta(days=60))
AMBER = Holder("amber", (("teach-bowel", *ALWAYS),))


def gaps(ticked, at=THURSDAY, kind="ileostomy", holders=(AMBER,), more=()):
    changes = [DueChange("s", at, kind), *more]
    found = cover(changes, ticked, {each.key: each for each in holders}, WARD, NOW)
    return [words(reason) for each in found for reason in each.gaps]


def test_nobody_ticked():
    assert gaps({}) == ["1 change falls on Thursday's day shift with nobody ticked."]


def test_ticked_and_signed_off():
    assert gaps({DAY: {"amber"}}) == []


def test_ticked_and_not_signed_off_to_teach_it():
    said = ["1 change falls on Thursday's day shift with nobody ticked who is signed off to teach."]
    assert gaps({DAY: {"basil"}}) == said
    assert gaps({DAY: {"amber"}}, kind="urostomy") == said


def test_signed_off_today_and_lapsed_the_day_before_the_change():
    lapsing = Holder("amber", (("teach-bowel", ALWAYS[0], NOW + timedelta(hours=12)),))
    assert len(gaps({DAY: {"amber"}}, holders=(lapsing,))) == 1
    assert gaps({(date(2026, 5, 13), "day"): {"amber"}}, at=NOW + timedelta(hours=3), holders=(lapsing,)) == []


def test_an_overdue_change_falls_on_this_shift():
    assert gaps({}, at=NOW - timedelta(days=2)) == ["1 change falls on Wednesday's day shift with nobody ticked."]


def test_the_night_after_midnight_belongs_to_the_day_before():
    said = ["1 change falls on Thursday's night shift with nobody ticked."]
    assert gaps({}, at=THURSDAY + timedelta(hours=15)) == said


def test_who_is_booked_to_teach_counts_as_one_who_is_ticked():
    def found(teacher, holders=(AMBER,)):
        booked = DueChange("s", THURSDAY, "ileostomy", True, teacher)
        return cover([booked], {}, {each.key: each for each in holders}, WARD, NOW)[0].untaught

    assert found("amber") == ()
    assert len(found("basil")) == len(found("")) == len(found("amber", holders=())) == 1


def row_of(**more):
    given = {
        "stay": "s", "bed": "A1", "name": "Ada", "mrn": "1", "stomas": (Stoma("k", "right", "ileostomy"),),
        "due": (Due("change", THURSDAY),),
    }
    return BoardRow(**given | more)


def booking(hours, **more):
    return Appointment("b", THURSDAY + timedelta(hours=hours), "booked", **more)


def planned(*booked, **row):
    """[(hours from Thursday 10:00, booked)] of one person."""
    found = soon(planned_changes([row_of(**row)], {"s": booked}, WARD, NOW), DEFAULT, NOW)
    return [((each.at - THURSDAY) / timedelta(hours=1), each.booked) for each in found]


@pytest.mark.parametrize(
    ("story", "booked", "expected"),
    [
        ("nothing booked", (), [(0, False)]),
        ("booked the day before", (booking(-18),), [(-18, True)]),
        ("booked later on the day it falls due", (booking(5),), [(5, True)]),
        ("booked the day after: both stand", (booking(24),), [(0, False), (24, True)]),
        ("an emptying booked is no change", (booking(5, procedure="emptying"),), [(0, False)]),
        ("practice takes no change's place", (booking(5, practice=True),), [(0, False)]),
        ("cancelled", (replace(booking(5), state="cancelled"),), [(0, False)]),
        ("held already", (replace(booking(5), state="held"),), [(0, False)]),
        ("confirmed", (replace(booking(5), state="confirmed"),), [(5, True)]),
        ("its moment is past and nobody said what became of it", (booking(-25),), [(0, False)]),
        ("of another stoma", (booking(5, stoma="other"),), [(0, False)]),
        ("further ahead than is looked", (booking(50),), [(0, False)]),
    ],
)
def test_what_is_booked_takes_the_place_of_what_is_worked_out(story, booked, expected):
    assert planned(*booked) == expected, story


def test_an_overdue_change_gives_way_to_a_booking_of_today_and_not_of_tomorrow():
    late = {"due": (Due("change", NOW - timedelta(hours=30)),)}
    assert planned(booking(-20), **late) == [(-20, True)]
    assert planned(booking(0), **late) == [(-54, False), (0, True)]


def test_what_comes_after_the_planned_leaving_is_not_done_here():
    assert planned(booking(5), planned_at=THURSDAY + timedelta(hours=4)) == [(0, False)]
    assert planned(planned_at=THURSDAY - timedelta(seconds=1)) == []
    assert planned(planned_at=THURSDAY) == [(0, False)]


def test_a_leaving_that_has_passed_no_longer_says_when_somebody_leaves():
    assert planned(planned_at=NOW - timedelta(hours=1)) == [(0, False)]


def test_the_last_day_ahead_counts_to_its_very_moment():
    ahead = DEFAULT.huddle_ahead
    assert len(planned(due=(Due("change", NOW + ahead),))) == 1
    assert planned(due=(Due("change", NOW + ahead + timedelta(seconds=1)),)) == []


def test_two_stomas_each_have_their_own():
    stomas = (Stoma("u", "right", "urostomy"), Stoma("c", "left", "colostomy"))
    due = (Due("change", THURSDAY, "right"), Due("change", THURSDAY + timedelta(hours=2), "left"))
    found = planned_changes([row_of(stomas=stomas, due=due)], {"s": [booking(5, stoma="c")]}, WARD, NOW)
    assert [(each.stoma_kind, each.booked) for each in found] == [("urostomy", False), ("colostomy", True)]


def test_nothing_is_planned_while_teaching_is_paused():
    assert planned(booking(0), paused=True) == []


def test_where_teaching_waits_no_change_wants_somebody_to_teach_it():
    """The pouch is changed all the same; with a call-now caution open even a booked one is not taught."""
    assert planned(booking(0), waits="Call first: a dark stoma. Teaching waits.") == []


def test_bound_for_a_facility_only_what_is_booked_is_taught():
    both = {"stomas": (Stoma("u", "right", "urostomy"), Stoma("c", "left", "colostomy")), "only_booked": True,
            "due": (Due("change", THURSDAY, "right"), Due("change", THURSDAY, "left"))}  # fmt: skip
    assert planned(**both) == []
    assert planned(booking(5, stoma="c"), **both) == [(5, True)]


def test_several_on_one_shift_are_counted():
    more = [DueChange("t", THURSDAY + timedelta(hours=1), "colostomy")]
    assert gaps({}, more=more) == ["2 changes fall on Thursday's day shift with nobody ticked."]


@pytest.mark.parametrize("kind", STOMA_KINDS)
def test_the_skill_is_the_one_that_a_session_leans_on(kind):
    class Stoma:
        pass

    stoma = Stoma()
    stoma.kind = kind
    assert skill_to_teach(kind) == skill_for(stoma)
