"""A unit's learning from made-up stays: floors, what fails first, and leaving first as a competing event."""

from functools import partial

import pytest

from teaching.analysis.unit_learning import LearnedStay
from teaching.analysis.unit_learning import unit_learning as learning
from teaching.rules.policy import DEFAULT

FLOOR = DEFAULT.stays_for_curves
unit_learning = partial(learning, floor=FLOOR)


def stay(number=0, **told):
    return LearnedStay(**{
        "outcome": "independent", "days": 5.0 + number % 3, "month": f"2026-{number % 6 + 1:02}",
        "result": "self-caring", "sessions": 4, "tries": {"em-close": (1, True)},
    } | told)


def stays(count, **told):
    return [stay(number, **told) for number in range(count)]


@pytest.mark.parametrize(("count", "past"), [(FLOOR - 1, False), (FLOOR, True)])
def test_curves_and_intervals_wait_for_their_floor(count, past):
    found = unit_learning(stays(count))
    assert (bool(found.curve), bool(found.shares), bool(found.months), found.past_floor) == (past,) * 4
    assert (found.stays, found.results) == (count, {"self-caring": count})


def test_what_fails_first_stands_first():
    told = {"cut": (3, True), "em-close": (1, True), "join": (2, False)}
    found = unit_learning(stays(6, tries=told) + stays(6, tries=told | {"join": (1, True), "cut": (2, True)}))
    assert [(row.code, row.tried, row.at_once.count, row.usual_try) for row in found.rows] == [
        ("cut", 12, 0, 2.5), ("join", 12, 6, None), ("em-close", 12, 12, 1),
    ]  # fmt: skip


def test_half_that_never_got_there_has_no_usual_try():
    (row,) = unit_learning(stays(8, tries={"join": (4, False)})).rows
    assert (row.usual_try, row.at_once.value) == (None, 0)


def test_rows_that_few_have_tried_are_left_out():
    assert unit_learning(stays(4)).rows == ()
    assert len(unit_learning(stays(5)).rows) == 1


def test_leaving_first_is_no_waiting():
    """20 independent on day 5 and 20 who left on day 4: half is reached on day 5, and never more than half."""
    found = unit_learning(stays(20, days=5.0) + stays(20, days=4.0, outcome="left", result="not yet"))
    assert found.curve[-1].reached == {"independent": 0.5, "left": 0.5}
    assert found.usual_days == 5.0
    assert unit_learning(
        stays(19, days=5.0) + stays(21, days=4.0, outcome="left")).usual_days is None


def test_small_results_are_hidden_with_another():
    found = unit_learning(stays(30) + stays(10, result="not yet") + stays(3, result="cannot say"))
    assert found.results == {"self-caring": 30, "not yet": None, "cannot say": None}
    assert set(found.shares) == {"self-caring"}


def test_months_are_shares_of_those_judged():
    told = [stay(month="2026-01") for _ in range(15)] + [stay(month="2026-02", result="not yet") for _ in range(15)]
    assert unit_learning([*told, stay(month="2026-03")]).months == (("2026-01", 1.0), ("2026-02", 0.0))


def test_sessions_a_stay_in_quarters():
    told = [stay(sessions=count) for count in (2, 3, 4, 5, 9)]
    assert unit_learning(told).sessions == (3, 4, 5)
    assert unit_learning(told[:4]).sessions is None


@pytest.mark.parametrize(("at_once", "of", "said"), [
    (0, 9, "0 of 9"), (5, 10, "5 of 10"), (10, 10, "10 of 10"),
    (1, 12, "fewer than 5 of 12"), (11, 12, "all but fewer than 5 of 12"), (2, 5, "hidden (both groups under 5)"),
])
def test_of_a_row_no_small_group_is_said(at_once, of, said):
    told = [stay(tries={"join": (1, True)})] * at_once + [stay(tries={"join": (2, True)})] * (of - at_once)
    (row,) = unit_learning(told).rows
    assert (row.counted, row.at_once is None) == (said, "fewer" in said or "hidden" in said)


def test_no_small_group_can_be_read_off_the_curve():
    """42 stays, some leaving first, one or two a day: between two steps each outcome is nobody's or five people's."""
    outcomes = ("independent", "independent", "independent", "left")
    told = [stay(days=float(3 + number // 2), outcome=outcomes[number % 4]) for number in range(42)]
    curve = unit_learning(told).curve
    assert len(curve) >= 2
    whole, before = len(told), {"independent": 0, "left": 0}
    for step in curve:
        grown = [round((step.reached[outcome] - before[outcome]) * whole) for outcome in before]
        assert all(many == 0 or many >= 5 for many in grown), (step, grown)
        assert round(step.none_yet * whole) in (0, *range(5, whole))
        before = step.reached


def test_a_few_who_left_on_the_first_day_leave_no_curve_and_half_is_still_said():
    told = stays(3, outcome="left", days=1.0) + stays(27, days=5.0)
    found = unit_learning(told)
    assert (found.curve, found.usual_days) == ((), 5.0)
