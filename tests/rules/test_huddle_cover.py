"""Who teaches when a change is due: ticked, and signed off then."""

from datetime import UTC, date, datetime, timedelta

import pytest

from teaching.record.sessions import skill_for
from teaching.rules.huddle_cover import DueChange, Holder, cover, skill_to_teach
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
