"""Competence stories: each row one nurse's way, read as an educator would tell it."""

from datetime import UTC, datetime, timedelta

import pytest

from teaching.rules.competence import lasts_until, spoken_day
from teaching.rules.competence_facts import SelfRating
from teaching.rules.policy import DEFAULT
from teaching.rules.reasons import words
from tests.rules.competence_story import (
    NEW_ROW,
    NOON,
    ROWS,
    WARD,
    day,
    granted,
    required,
    seen,
    skill,
    stands,
    withdrawn,
)

A_YEAR_ON = lasts_until(NOON, DEFAULT, WARD)
RENEWAL_DAY = datetime(2027, 5, 13, 12, tzinfo=UTC)
DAY_AFTER = RENEWAL_DAY + timedelta(days=1)
THREE = (seen(-9, "4"), seen(-6), seen(-2))
SIGNED = granted(1, A_YEAR_ON, practice="p-2")

# what happened, when it is asked, the state, what is still required
STORIES = {
    "nothing yet": ((), NOON, "not begun", ["Observed practices: 0 of 3."]),
    "one, at 4": (
        (seen(-1, "4", off="5"),), NOON, "practising",
        ["Observed practices: 1 of 3.",
         "Not yet at 5 (independent): Look (4 supervised); Fit (4 supervised); Close (4 supervised)."],
    ),
    "three, the last two at 5": (THREE, NOON, "ready for sign-off", []),
    "three, a slip in the last": (
        (seen(-9), seen(-6), seen(-2, close="3")), NOON, "practising",
        ["Not yet at 5 (independent): Close (3 assisted)."],
    ),
    "a slip, then right once": (
        (seen(-9), seen(-6, close="3"), seen(-2)), NOON, "practising", ["Once more at 5 (independent): Close."],
    ),
    "simulation only": (
        tuple(seen(-n, where="simulation") for n in (9, 6, 2)), NOON, "practising",
        ["1 of the last 2 must be with a person; so far only in simulation."],
    ),
    "with a person long ago, then only at a bench": (
        (seen(-9), seen(-6, where="bench"), seen(-2, where="bench")), NOON, "practising",
        ["1 of the last 2 must be with a person; so far only at a skills bench."],
    ),
    "a row never came up": (
        tuple(seen(-n, fit="X") for n in (9, 6, 2)), NOON, "practising", ["Not observed yet: Fit."],
    ),
    "X between two fives neither helps nor harms": (
        (seen(-12), seen(-9), seen(-6, fit="X"), seen(-2)), NOON, "ready for sign-off", [],
    ),
    "one practice taken back": (
        (*THREE[:2], seen(-2, taken_back=True)), NOON, "practising", ["Observed practices: 2 of 3."],
    ),
    "two observed at one moment are one occasion": (
        (seen(-9), seen(-2), seen(-2)), NOON, "practising", ["Observed practices: 2 of 3."],
    ),
    "signed off today": ((*THREE, SIGNED), day(0, 1), "signed off", ["Observed practices: 0 of 1."]),
    "seen again in the year: may be renewed": ((*THREE, SIGNED, seen(200)), day(201), "signed off", []),
    "seen again, only in simulation": (
        (*THREE, SIGNED, seen(200, where="simulation")), day(201), "signed off",
        ["It must be with a person; so far only in simulation."],
    ),
    "two months before the end": ((*THREE, SIGNED), day(306), "due soon", ["Observed practices: 0 of 1."]),
    "on the day of renewal": ((*THREE, SIGNED), RENEWAL_DAY, "due soon", ["Observed practices: 0 of 1."]),
    "one day late": ((*THREE, SIGNED), DAY_AFTER, "lapsed", ["Observed practices: 0 of 3."]),
    "one day late, seen twice in the year": (
        (*THREE, SIGNED, seen(100), seen(300)), DAY_AFTER, "lapsed", ["Observed practices: 2 of 3."],
    ),
    "withdrawn": (
        (*THREE, SIGNED, seen(40), withdrawn(2, 50)), day(51), "withdrawn", ["Observed practices: 0 of 3."],
    ),
    "withdrawn, then regained": (
        (*THREE, SIGNED, withdrawn(2, 50), seen(60), seen(70), seen(80), granted(3, day(445), 81)), day(82),
        "signed off", ["Observed practices: 0 of 1."],
    ),
    "withdrawn, seen three times again": (
        (*THREE, SIGNED, withdrawn(2, 50), seen(60), seen(70), seen(80)), day(81), "ready for sign-off", [],
    ),
    "first week: a certificate from elsewhere": (
        (granted(1, day(300), -65, certificate="County school, 2026"),), NOON, "signed off",
        ["Observed practices: 0 of 1."],
    ),
    "a certificate that begins next week": (
        (granted(1, day(300), 7, certificate="County school"),), NOON, "not begun", ["Observed practices: 0 of 3."],
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", STORIES)
def test_story(name):
    facts, at, state, still = STORIES[name]
    one = stands(*facts, at=at)
    assert (one.state, required(one)) == (state, still)


def test_signed_off_until_the_last_moment_of_the_day_a_year_on():
    """12 months, common practice, no source. The card says 13 May 2027, and that whole day counts."""
    assert spoken_day(A_YEAR_ON, WARD) == "13 May 2027"
    assert stands(*THREE, SIGNED, at=A_YEAR_ON).valid
    assert stands(*THREE, SIGNED, at=A_YEAR_ON + timedelta(microseconds=1)).state == "lapsed"


@pytest.mark.parametrize(
    ("months", "until"), [(3, "30 Apr 2027"), (12, "31 Jan 2028"), (25, "28 Feb 2029"), (36, "31 Jan 2030")]
)
def test_months_end_where_the_month_does(months, until):
    local = DEFAULT.with_overrides({"sign_off_lasts": months})
    assert spoken_day(lasts_until(datetime(2027, 1, 31, 12, tzinfo=UTC), local, WARD), WARD) == until


def test_a_leap_day_ends_on_the_last_of_february():
    assert spoken_day(lasts_until(datetime(2028, 2, 29, 12, tzinfo=UTC), DEFAULT, WARD), WARD) == "28 Feb 2029"


def test_an_older_version_counts_row_by_row_and_only_the_new_row_must_be_seen():
    newer = skill(2, (*ROWS, NEW_ROW))
    assert required(stands(*THREE, of=newer)) == ["New in version 2, not observed yet: Read."]
    again = (*THREE, seen(-1, version=2, rows=(*ROWS, NEW_ROW)))
    assert required(stands(*again, of=newer)) == ["Once more at 5 (independent): Read."]
    assert stands(*again, seen(0, version=2, rows=(*ROWS, NEW_ROW)), of=newer).state == "ready for sign-off"


def test_a_new_version_leaves_a_sign_off_standing_until_its_day():
    assert stands(*THREE, SIGNED, at=day(30), of=skill(2, (*ROWS, NEW_ROW))).state == "signed off"


def test_a_changed_policy_does_not_move_the_end_that_was_granted():
    short = DEFAULT.with_overrides({"sign_off_lasts": 3})
    assert stands(*THREE, SIGNED, at=day(200), policy=short).until == A_YEAR_ON


def test_what_it_rests_on_is_said():
    one = stands(*THREE, SIGNED, withdrawn(2, 50), at=day(51))
    assert [words(reason) for reason in one.stands_on] == [
        "Withdrawn 2 Jul 2026 by Linden Brook: two leaks after her changes."
    ]
    gone = stands(seen(-9, "4"), seen(-6), seen(-2, taken_back=True), SIGNED, at=day(1))
    assert [words(reason) for reason in gone.stands_on][-1].startswith("It rests on a practice that was taken back")
    assert gone.state == "signed off"


def test_of_many_rows_below_5_the_lowest_are_named_first():
    one = stands(seen(-1, "4", fit="2", close="3"))
    assert required(one)[1] == (
        "4 rows not yet at 5 (independent), the lowest first: Fit (2 marginal); Close (3 assisted); Off (4 supervised)."
    )


def test_how_sure_a_nurse_feels_changes_nothing():
    sure = stands(self_ratings=(SelfRating("change", 6, NOON),))
    assert (sure.state, sure.required) == (stands().state, stands().required)


def test_a_skill_is_not_signed_off_for_a_grade_it_is_not_asked_of():
    one = stands(*THREE, grade="student")
    assert (one.state, required(one)) == ("practising", ["Not asked of this grade."])


@pytest.mark.parametrize("order", [1, -1])
def test_the_order_of_facts_does_not_matter(order):
    facts = (*THREE, SIGNED, seen(40), withdrawn(2, 50), seen(60))[::order]
    one = stands(*facts, at=day(61))
    assert (one.state, required(one)) == ("withdrawn", ["Observed practices: 1 of 3."])
