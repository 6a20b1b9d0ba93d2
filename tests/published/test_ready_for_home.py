"""Readiness against what is published on going home with a stoma. People are invented; local policy wins.

No published cut-off exists for "independent enough to go home": these hold the rules to what is published, no more.
"""

from datetime import timedelta

import pytest
from going_home import ALL_HOURS, Going, all_held, only

from teaching.rules.arrangements import KINDS
from teaching.rules.policy import DEFAULT

READY = ("self-caring", "with a named helper", "with nursing care arranged")


def by_the_family():
    """The person does nothing alone; the wife, who lives with him, was taught all of it."""
    story = Going().helper("wife").comes("wife", ALL_HOURS).shows("em-open press", "02", "Wed 09:00")
    return story.holds("pouch", "change", "topics", learner="wife").all_else()


def training_still_to_come():
    """Empties and knows what must be known; the change is still to be learnt, with a nurse who comes for it."""
    return only("pouch").shows("press", "03", "Wed 09:00").visit("Fri 09:00")


# Fiore et al. 2012, Dis Colon Rectum (Delphi, ready for discharge after colorectal surgery): with a stoma, when the
# person or the family is trained, or outpatient training is arranged.


@pytest.mark.parametrize("story", [all_held(), by_the_family(), training_still_to_come()])
def test_fiore_person_or_family_trained_or_training_arranged(story):
    assert story.result() in READY


def test_fiore_none_of_the_three():
    story = only("pouch").shows("press", "03", "Wed 09:00")
    assert story.result() == "not yet"


# The hard minimum: the person or a carer can empty (Wound Care Advisor, "Teaching ostomy care for home").


@pytest.mark.parametrize("row", ["em-open", "em-close"])
def test_hard_minimum_somebody_at_home_can_empty(row):
    """One of its two rows at hands-on help is enough to say not yet, whatever nursing is arranged."""
    story = all_held().visit("Fri 09:00").shows(row, "03", "Wed 12:00")
    assert [gap.part for gap in story.ready().gaps] == ["pouch"]
    story.helper("wife").comes("wife", ALL_HOURS).holds("pouch", "topics", learner="wife")
    assert story.result() == "with a named helper"


def test_hard_minimum_for_each_way_of_emptying():
    for kind, kit, row in (
        ("colostomy", {"closure": "closed", "outlet": ""}, "cl-on"),
        ("urostomy", {"outlet": "tap"}, "ue-open"),
    ):
        assert all_held(kind, **kit).result() == "self-caring"
        assert all_held(kind, **kit).visit("Fri 09:00").shows(row, "02", "Wed 12:00").result() == "not yet"


# NHS Northern Care Alliance leaflet: able to empty and change, or carers trained and confident; seen within 72 h;
# stock until the next review.


@pytest.mark.parametrize(("hours", "ready"), [(24, True), (72, True), (73, False)])
def test_northern_care_alliance_seen_within_72_hours(hours, ready):
    assert DEFAULT.first_contact == timedelta(hours=72)
    story = all_held().all_else(("first-contact",)).visit("Thu 12:00", state="asked")
    story.arranged("first-contact", due=None, by="Stoma nurse")
    assert story.result() == "not yet"  # booked, and nobody said for when
    assert (all_held().all_else(contact=timedelta(hours=hours)).result() in READY) == ready


@pytest.mark.parametrize(("days", "ready"), [(14, True), (15, False)])
def test_northern_care_alliance_stock_until_more_comes(days, ready):
    assert (all_held().all_else(delivery=timedelta(days=days)).result() in READY) == ready
    assert KINDS["supplies"].class_ == KINDS["first-contact"].class_ == "P"


def test_northern_care_alliance_able_to_change_or_carers_trained():
    assert only("pouch").result() == "not yet"
    carer = only("pouch").helper("wife").comes("wife", ALL_HOURS).holds("change", "topics", learner="wife")
    assert carer.result() == "with a named helper"
