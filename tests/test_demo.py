"""The people of the invented hospital show what their stories say."""

from datetime import UTC, datetime

import pytest
import time_machine
from django.db import transaction

from teaching.management.demo.cast import CAST, HERON, WREN
from teaching.management.demo.more_stories import MORE_STORIES
from teaching.management.demo.play import EVERYONE, play
from teaching.management.demo.stories import STORIES
from teaching.management.demo.story import moment
from teaching.models import Account, Clinician, Stay, StayNow, TrailLine, Unit
from teaching.record.charts import chart_for
from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT

AFTERNOON = datetime(2026, 5, 13, 13, 0, tzinfo=UTC)

@pytest.fixture(scope="module")
def demo(django_db_setup, django_db_blocker):
    """Played once for all tests here, which only read it, and rolled back after the last."""
    with django_db_blocker.unblock(), transaction.atomic(), time_machine.travel(AFTERNOON, tick=False):
        yield play(AFTERNOON)
        transaction.set_rollback(True)


def test_no_moment_of_a_story_is_today_or_later():
    """So that nothing is claimed to have happened in the future, whatever the hour of loading."""
    for story in EVERYONE:
        for each in story.moments:
            assert moment(each.at, AFTERNOON).date() < AFTERNOON.date(), story.family


def states(stay, learner="person"):
    """{(side, procedure): state} and {code: state} of one learner of a stay, as `assess` has them now."""
    chart = chart_for(stay)
    kinds = {each.key: each.kind for each in chart.learners}
    sides = {each.key: each.side for each in chart.stomas}
    found = assess(chart, DEFAULT, AFTERNOON)
    whole = {
        (sides[each.stoma], each.procedure): each.state
        for each in found.conclusions
        if kinds[each.learner] == learner
    }
    rows = {each.code: each.state for each in found.standings if kinds[each.learner] == learner}
    return whole, rows


@pytest.mark.parametrize(
    ("family", "learner", "side", "procedure", "state"),
    [
        ("Fernhollow", "person", "right", "emptying", "independent"),
        ("Quillfeather", "person", "left", "emptying", "shown once"),
        ("Larkmead", "person", "right", "emptying", "shown once"),
        ("Appleyard", "person", "right", "emptying", "show again"),
        ("Winterbourne", "person", "right", "urine", "independent"),
        ("Saltmarsh", "person", "right", "emptying", "not started"),
        ("Underhill", "person", "left", "emptying", "learning"),
        ("Underhill", "helper", "left", "emptying", "independent"),
        ("Thornbury", "person", "right", "emptying", "learning"),
        ("Ravenscar", "person", "right", "urine", "independent"),
        ("Ravenscar", "person", "left", "emptying", "shown once"),
        ("Meadowsweet", "person", "right", "emptying", "shown, not yet confirmed"),
        ("Greystone", "person", "left", "emptying", "show again"),
        ("Oxbow", "person", "left", "swap", "independent"),
        ("Stillwater", "person", "right", "emptying", "learning"),
    ],
)
def test_each_story_shows_its_rule(demo, family, learner, side, procedure, state):
    assert states(demo.stays[family], learner)[0][side, procedure] == state


def test_another_outlet_asks_again_for_wipe_and_close_only(demo):
    rows = states(demo.stays["Appleyard"])[1]
    assert {code for code in ("em-when", "em-open", "em-wipe", "em-close") if rows[code] == "independent"} == {
        "em-when", "em-open",
    }  # fmt: skip


def test_a_caution_is_told_and_not_settled(demo):
    (caution,) = assess(chart_for(demo.stays["Thornbury"]), DEFAULT, AFTERNOON).cautions
    assert caution.told and not caution.settled and not caution.answer


def test_a_session_is_begun_and_not_signed(demo):
    (draft,) = demo.stays["Meadowsweet"].drafts.all()
    assert (draft.state, draft.taps.count()) == ("open", 2)


def test_nobody_is_on_two_wards_and_the_other_ward_has_its_own_person(demo):
    on = dict(StayNow.objects.values_list("name", "unit__name"))
    assert [name for name, unit in on.items() if unit == WREN] == ["Orla Stillwater"]
    assert sum(unit == HERON for unit in on.values()) == len(EVERYONE) - 1


def test_every_person_every_ward_says_it_is_made_up(demo):
    assert all("(made up)" in unit.name for unit in Unit.objects.all())
    assert len({(story.given, story.family) for story in EVERYONE}) == len(STORIES) + len(MORE_STORIES)


def test_it_is_built_by_verbs_alone(demo):
    """Each account, stay and clinician has the trail line of the verb that made it."""
    verbs = TrailLine.objects.values_list("verb", flat=True)
    made = sum(verb in ("record_session", "record_care", "record_recheck") for verb in verbs)
    assert made == Account.objects.count() > 30
    assert sum(verb == "open_stay" for verb in verbs) == Stay.objects.count()
    assert sum(verb == "register_clinician" for verb in verbs) == Clinician.objects.count() == len(CAST)


