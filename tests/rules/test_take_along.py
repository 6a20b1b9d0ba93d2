"""Kit to take along, said with its numbers: spares, wear and days by policy, and the most while the size changes."""

from dataclasses import replace
from datetime import timedelta

import pytest

from teaching.rules.reasons import words
from teaching.rules.take_along import take_along
from tests.rules.going_home import NOW, Going, at

CAP = "While the size changes, kit for 28 days at most."


def told(story, formed="Mon 00:00", days=10, now=NOW):
    """Leaving Thursday; surgery at `formed`, the first delivery so many days later."""
    stomas = (replace(one, formed_at=formed and at(formed)) for one in story.chart.stomas)
    story.chart = replace(story.chart, stomas=tuple(stomas))
    if days is not None:
        story.all_else(delivery=timedelta(days=days))
    return [words(one) for one in take_along(story.chart, story.policy, at(now))]


def test_until_the_first_delivery_with_spares_and_the_most_while_the_size_changes():
    assert told(Going()) == [
        "7 pouches: 4 to last 10 days until the first delivery, one every 72 hours, and 3 spare.", CAP]


def test_more_than_four_weeks_are_capped_while_the_size_changes():
    assert told(Going(), days=40) == [
        "13 pouches: 10 to last 28 days, one every 72 hours, and 3 spare. "
        "No more, though the delivery is 40 days away: the size still changes."]


def test_without_a_delivery_the_policy_says_for_how_long():
    assert told(Going(), days=None)[0] == (
        "8 pouches: 5 to last 14 days, as the days until a first delivery cannot be said, one every 72 hours, "
        "and 3 spare.")


def test_a_size_that_has_settled_has_no_most():
    settled = told(Going(), formed="Mon+-9 00:00", days=40)
    assert settled == ["17 pouches: 14 to last 40 days until the first delivery, one every 72 hours, and 3 spare."]


def test_the_spares_and_the_most_are_lines_of_the_policy():
    story = Going()
    story.policy = story.policy.with_overrides({"supplies_spares": 5, "supplies_cap": 21})
    assert "9 pouches: 4 to last 10 days" in told(story)[0] and told(story)[1].endswith("21 days at most.")


def test_closed_pouches_are_counted_besides():
    found = told(Going("colostomy", closure="closed", outlet="", interval_hours=96))
    assert found[0].startswith("6 kits for a change: 3 to last 10 days")
    assert found[-1] == "Closed pouches are swapped between changes: count those besides."


@pytest.mark.parametrize("state", ["refused", "asked", "cancelled"])
def test_a_delivery_that_is_not_made_is_none(state):
    story = Going().all_else(delivery=timedelta(days=1))
    changed = (replace(one, state=state) if one.code == "supplies" else one for one in story.chart.arrangements)
    story.chart = replace(story.chart, arrangements=tuple(changed))
    assert told(story, days=None)[0] == told(Going(), days=None)[0]


def test_a_planned_leaving_that_has_passed_counts_no_days():
    assert told(Going(), days=1, now="Thu 11:59")[0].startswith("4 pouches: 1 to last 1 day until")
    assert told(Going(), days=1, now="Thu 12:01")[0] == told(Going(), days=None)[0]


def test_the_most_is_said_once_for_two_stomas():
    story = Going("urostomy", outlet="tap")
    story.stoma("left", "colostomy", interval_hours=96)
    assert told(story).count(CAP) == 1 and told(story)[-1] == CAP


def test_two_stomas_are_told_one_by_one():
    story = Going("urostomy", outlet="tap")
    story.stoma("left", "colostomy", interval_hours=96)
    found = told(story)
    assert [line.split(":")[0] for line in found if line.startswith(("6", "7"))] == [
        "7 pouches, stoma stoma", "6 pouches, left stoma"]


@pytest.mark.parametrize("days", [0, 1])
def test_a_delivery_on_the_day_of_leaving_leaves_the_spares(days):
    assert told(Going(), days=days)[0].startswith(f"{3 + days} pouches: {days} to last")
