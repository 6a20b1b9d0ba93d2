"""Sentences I1-I7 and I12, each named by its test; bounds from both sides. Thresholds: common practice, no source."""

from datetime import timedelta

import pytest
from story import (
    ASSISTANT,
    COSIGNED,
    OTHER_NURSE,
    SIGNED_OFF,
    STOMA_NURSE,
    STUDENT,
    WARD_NURSE,
    Story,
    at,
)


def alone_twice(code="em-open", **kit):
    return Story(**kit).shows(code, "06", "Mon 10:00").shows(code, "06", "Mon 15:00")


@pytest.mark.parametrize("level", ["01", "02", "03", "04", "05"])
def test_i1_only_06_is_a_showing(level):
    story = Story().shows("em-open", level, "Mon 10:00").shows("em-open", level, "Mon 15:00")
    assert story.is_("em-open", "Mon 16:00") == "learning"


def test_i1_reported_never_counts_either_way():
    story = (
        Story().shows("em-open", "06", "Mon 10:00", reported=True).shows("em-open", "06", "Mon 15:00", reported=True)
    )
    assert story.is_("em-open", "Mon 16:00") == "not started"
    assert alone_twice().shows("em-open", "02", "Mon 15:30", reported=True).is_("em-open", "Mon 16:00") == "independent"


@pytest.mark.parametrize("code", ["07", "10", "88"])
def test_i1_not_attempted_neither_ends_a_run_nor_adds(code):
    once = Story().shows("em-open", "06", "Mon 10:00").shows("em-open", code, "Mon 12:00")
    assert once.is_("em-open", "Mon 16:00") == "shown once"
    assert once.shows("em-open", "06", "Mon 15:00").is_("em-open", "Mon 16:00") == "independent"


def test_i1_at_the_same_time_the_lower_rating_counts_as_the_later():
    story = alone_twice().shows("em-open", "04", "Mon 15:00", event="paired")
    assert story.is_("em-open", "Mon 16:00") == "slipped"


def test_i2_two_since_the_last_lower_rating():
    story = Story().shows("em-open", "06", "Mon 10:00").shows("em-open", "04", "Mon 12:00")
    assert story.is_("em-open", "Mon 13:00") == "slipped"
    story.shows("em-open", "06", "Mon 15:00")
    assert story.is_("em-open", "Mon 16:00") == "shown once"
    assert story.shows("em-open", "06", "Mon 20:00").is_("em-open", "Mon 21:00") == "independent"


def test_i2_a_lower_practice_rating_ends_the_run_too():
    assert alone_twice().shows("em-open", "04", "Mon 15:30", practice=True).is_("em-open", "Mon 16:00") == "slipped"


def test_i2_a_lower_rating_ends_only_its_own_row():
    story = alone_twice("em-open em-wipe").shows("em-wipe", "03", "Mon 18:00")
    assert (story.is_("em-open", "Mon 19:00"), story.is_("em-wipe", "Mon 19:00")) == ("independent", "slipped")


def test_i3_four_hours_apart_or_another_shift():
    def twice(second):
        return Story().shows("em-open", "06", "Mon 10:00").shows("em-open", "06", second).is_("em-open", "Tue 08:00")

    assert twice("Mon 13:59") == "shown once"
    assert twice("Mon 14:00") == "independent"
    near_handover = Story().shows("em-open", "06", "Mon 19:29").shows("em-open", "06", "Mon 19:30")
    assert near_handover.is_("em-open", "Mon 20:00") == "independent"


def test_i3_one_event_is_one_occasion_however_many_rated_it():
    story = Story().shows("em-open", "06", "Mon 10:00", event="e").shows("em-open", "06", "Mon 20:00", event="e")
    assert story.is_("em-open", "Mon 21:00") == "shown once"


def test_i3_change_rows_on_different_local_dates():
    def twice(first, second, **more):
        story = (
            Story()
            .shows("off-peel", "06", first, by=STOMA_NURSE)
            .shows("off-peel", "06", second, by=STOMA_NURSE, **more)
        )
        return story.is_("off-peel", "Wed 12:00")

    assert twice("Mon 08:00", "Mon 23:00") == "shown once"
    assert twice("Mon 23:30", "Tue 00:30") == "independent"
    assert twice("Mon 08:00", "Mon 15:00", practice=True) == "independent"


@pytest.mark.parametrize(
    ("by", "state"),
    [
        (WARD_NURSE, "independent"),
        (STOMA_NURSE, "independent"),
        (COSIGNED, "independent"),
        (STUDENT, "shown, not yet confirmed"),
        (ASSISTANT, "shown, not yet confirmed"),
    ],
)
def test_i4_emptying_is_confirmed_by_any_registered_nurse(by, state):
    story = Story().shows("em-open", "06", "Mon 10:00", by=by).shows("em-open", "06", "Mon 15:00", by=by)
    assert story.is_("em-open", "Mon 16:00") == state


@pytest.mark.parametrize(
    ("by", "peel"),
    [
        (WARD_NURSE, "shown, not yet confirmed"),
        (COSIGNED, "shown, not yet confirmed"),
        (SIGNED_OFF, "independent"),
        (STOMA_NURSE, "independent"),
    ],
)
def test_i4_a_change_is_confirmed_by_a_signed_off_or_stoma_nurse_closing_by_any(by, peel):
    story = Story().shows("off-peel close", "06", "Mon 10:00", by=by).shows("off-peel close", "06", "Tue 10:00", by=by)
    assert story.is_("off-peel", "Tue 12:00") == peel
    assert story.is_("close", "Tue 12:00") == "independent"


def test_i4_practice_never_confirms():
    story = (
        Story().shows("off-peel", "06", "Mon 10:00").shows("off-peel", "06", "Tue 10:00", by=STOMA_NURSE, practice=True)
    )
    assert story.is_("off-peel", "Tue 12:00") == "shown, not yet confirmed"


def test_i5_all_may_restore_and_one_of_two_never_alone():
    def reopened(code):
        story = alone_twice("em-close em-wipe").new_kit("Mon 18:00", outlet="clip")
        return story.shows(code, "06", "Mon 20:00", practice=True).is_(code, "Mon 21:00")

    assert reopened("em-close") == "independent"
    assert reopened("em-wipe") == "show again"


def test_i5_practice_only_ever_stands_as_the_second():
    twice_practice = Story().shows("em-close", "06", "Mon 10:00", practice=True)
    twice_practice.shows("em-close", "06", "Mon 15:00", practice=True)
    assert twice_practice.is_("em-close", "Mon 16:00") == "shown once"
    one_real = twice_practice.shows("em-close", "06", "Mon 20:00")
    assert one_real.is_("em-close", "Mon 21:00") == "independent"


def test_i5_none_gives_practice_no_share():
    story = Story().shows("look-skin", "06", "Mon 10:00", by=STOMA_NURSE)
    story.shows("look-skin", "06", "Tue 10:00", by=STOMA_NURSE, practice=True)
    assert story.is_("look-skin", "Tue 12:00") == "shown once"


def test_i5_practice_never_stands_over_a_real_lower_rating_after_it():
    story = Story().shows("em-close", "06", "Mon 10:00", practice=True).shows("em-close", "03", "Mon 12:00")
    assert story.shows("em-close", "06", "Mon 18:00").is_("em-close", "Mon 19:00") == "shown once"


def test_i6_practice_stands_for_emptying_until_stool_comes_with_a_call_booked():
    story = Story("colostomy").state("no-stool-yet", "Mon 00:00")
    story.shows("em-open", "06", "Mon 10:00", practice=True).shows("em-open", "06", "Mon 15:00", practice=True)
    assert story.is_("em-open", "Mon 16:00") == "shown once"
    assert any(reason.code == "book-stool-call" for reason in story.standing("em-open", "Mon 16:00").reasons)
    booked = story.arranged("first-stool-call").standing("em-open", "Mon 16:00")
    assert (booked.state, booked.provisional) == ("independent", True)


def test_i6_asked_never_inferred_and_stool_lowers_practice_only_rows():
    asked = Story("colostomy").arranged("first-stool-call")
    asked.shows("em-open", "06", "Mon 10:00", practice=True).shows("em-open", "06", "Mon 15:00", practice=True)
    assert asked.is_("em-open", "Mon 16:00") == "shown once"
    come = asked.state("no-stool-yet", "Mon 00:00", "Tue 08:00")
    assert (come.is_("em-open", "Tue 07:59"), come.is_("em-open", "Tue 08:00")) == ("independent", "shown once")


def test_i6_seen_by_a_registered_nurse():
    story = Story("colostomy").state("no-stool-yet", "Mon 00:00").arranged("first-stool-call")
    story.shows("em-open", "06", "Mon 10:00", practice=True, by=ASSISTANT)
    story.shows("em-open", "06", "Mon 15:00", practice=True, by=OTHER_NURSE)
    assert story.is_("em-open", "Mon 16:00") == "shown once"


def test_i7_a_lower_rating_with_a_reason_asks_for_one_showing_after_it():
    story = Story().shows("em-open", "06", "Mon 10:00").shows("em-open", "04", "Mon 12:00", reason="drowsy")
    assert story.is_("em-open", "Mon 13:00") == "shown once"
    assert story.shows("em-open", "06", "Mon 15:00").is_("em-open", "Mon 16:00") == "independent"
    again = alone_twice().shows("em-open", "04", "Mon 17:00", reason="unwell")
    assert again.is_("em-open", "Mon 18:00") == "show again"
    assert again.shows("em-open", "06", "Mon 18:30").is_("em-open", "Mon 19:00") == "independent"


def test_i12_emptying_stays_in_date_for_48_hours():
    story = alone_twice()
    assert story.is_("em-open", "Wed 15:00") == "independent"
    late = story.standing("em-open", at("Wed 15:00") + timedelta(seconds=1))
    assert (late.state, late.lack) == ("show again", "missing")


def test_i12_a_recheck_renews_but_adds_no_showing():
    story = alone_twice().recheck("emptying", "Wed 10:00")
    assert story.is_("em-open", "Fri 10:00") == "independent"
    assert story.is_("em-open", "Fri 10:01") == "show again"
    once = Story().shows("em-open", "06", "Mon 10:00").recheck("emptying", "Mon 18:00")
    assert once.is_("em-open", "Mon 19:00") == "shown once"
    assert alone_twice().recheck("emptying", "Wed 15:01").is_("em-open", "Wed 16:00") == "show again"


def test_i12_change_rows_the_greater_of_7_days_and_twice_the_interval():
    def changes(interval):
        story = Story(interval_hours=interval)
        return story.shows("off-peel", "06", "Mon 10:00", by=STOMA_NURSE).shows(
            "off-peel", "06", "Tue 10:00", by=STOMA_NURSE
        )

    assert changes(72).is_("off-peel", "Tue+1 10:00") == "independent"
    assert changes(72).is_("off-peel", "Tue+1 10:01") == "show again"
    assert changes(96).is_("off-peel", "Wed+1 10:00") == "independent"
    assert changes(96).is_("off-peel", "Wed+1 10:01") == "show again"
