"""The people of the invented hospital show what their stories say."""

import re
from datetime import UTC, datetime

import pytest
import time_machine

from teaching.analysis.small_groups import FEWEST
from teaching.management.demo.cast import CAST, HERON, WREN
from teaching.management.demo.later_stories import LATER_STORIES
from teaching.management.demo.more_stories import MORE_STORIES
from teaching.management.demo.past import HOW_MANY
from teaching.management.demo.play import EVERYONE, play
from teaching.management.demo.stories import STORIES
from teaching.management.demo.story import moment
from teaching.models import Account, Clinician, Rating, Stay, StayNow, TrailLine, Unit
from teaching.papers.read_take_home import home_of
from teaching.papers.take_home import blocked
from teaching.papers.take_home_parts import parts_of
from teaching.record.calls import calls_owed
from teaching.record.charts import chart_for
from teaching.record.handing_over import known_of
from teaching.record.kept_papers import newest_paper, reprint
from teaching.record.learned import shares
from teaching.record.paired import paired_ratings
from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT
from teaching.rules.readiness import ready

AFTERNOON = datetime(2026, 5, 13, 13, 0, tzinfo=UTC)
pytestmark = pytest.mark.django_db  # else this file alone gets no database


@pytest.fixture(scope="module")
def demo(module_record):
    """Played once for all tests here, which only read it."""
    with time_machine.travel(AFTERNOON, tick=False):
        yield play(AFTERNOON)


def test_no_moment_of_a_story_is_today_or_later():
    """So that nothing is claimed to have happened in the future, whatever the hour of loading."""
    for story in EVERYONE:
        for each in story.moments:
            if not each.at.startswith("ago"):
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
        ("Fernhollow", "person", "right", "change", "independent"),
        ("Fernhollow", "person", "right", "topics", "independent"),
        ("Underhill", "helper", "left", "change", "independent"),
        ("Birchwell", "person", "right", "change", "shown once"),
        ("Foxcombe", "person", "left", "emptying", "not started"),
        ("Foxcombe", "helper", "left", "change", "independent"),
        ("Yarrowby", "person", "right", "topics", "shown once"),
        ("Yarrowby", "person", "right", "emptying", "learning"),
        ("Winterbourne", "person", "right", "night", "learning"),
    ],
)
def test_each_story_shows_its_rule(demo, family, learner, side, procedure, state):
    assert states(demo.stays[family], learner)[0][side, procedure] == state


@pytest.mark.parametrize(
    ("family", "result"),
    [
        ("Fernhollow", "self-caring"),
        ("Underhill", "with a named helper"),
        ("Oxbow", "with nursing care arranged"),
        ("Hazelmere", "with nursing care arranged"),
        ("Birchwell", "not yet"),
        ("Thornbury", "not yet"),
        ("Foxcombe", "cannot say"),
    ],
)
def test_each_result_of_readiness_has_its_person(demo, family, result):
    chart = chart_for(demo.stays[family])
    assert ready(chart, assess(chart, DEFAULT, AFTERNOON), DEFAULT, AFTERNOON).result == result


def test_planned_days_home_are_spread_and_one_is_at_a_weekend(demo):
    """On whatever day it is loaded: six days in a row always hold a Saturday or a Sunday."""
    days = {moment(story.leaves, AFTERNOON).date() for story in EVERYONE if story.leaves.startswith("+")}
    ahead = {(day - AFTERNOON.date()).days for day in days}
    assert ahead == {1, 2, 3, 4, 5, 6}


def test_two_have_left_and_are_to_be_rung_one_of_them_tried_once(demo):
    owed = calls_owed(demo.units[HERON], AFTERNOON)
    assert {one.name: one.call.tries for one in owed} == {"Una Marlowfield": 1, "Viggo Thistledown": 0}


def test_the_units_figures_are_past_their_floors(demo):
    """At least 30 finished stays for curves and 20 paired sessions for agreement."""
    unit = demo.units[HERON]
    assert sum(share["outcome"] != "" for share in shares(unit, AFTERNOON, FEWEST).shares) >= DEFAULT.stays_for_curves
    assert len(paired_ratings(unit)) >= DEFAULT.paired_sessions


def test_a_handover_names_who_teaches_and_shows_no_key(demo):
    told = str(known_of(demo.stays["Birchwell"], AFTERNOON).handover)
    assert "teacher Amber Oakley" in told
    for stay in demo.stays.values():
        assert not re.search(r"[0-9a-f]{8}-[0-9a-f]{4}-", str(known_of(stay, AFTERNOON).handover))


@pytest.mark.parametrize("family", ["Fernhollow", "Underhill", "Winterbourne"])
def test_of_each_kind_of_stoma_a_sheet_to_take_home_can_be_printed(demo, family):
    home = home_of(demo.stays[family], demo.units[HERON], AFTERNOON)
    assert list(blocked(home.chart, AFTERNOON, home.slots)) == []
    parts = {part.key: part for part in parts_of(home.chart, home.policy, AFTERNOON, home.slots, None)}
    assert "New kit takes 5 days to come." in " ".join(line.words for line in parts["kit"].lines)
    drinks = "Drink about 2 litres in a day." in " ".join(line.words for line in parts["eat"].lines)
    assert drinks is (family == "Winterbourne")


def test_a_readiness_record_is_signed_and_nothing_was_written_since(demo):
    stay = demo.stays["Fernhollow"]
    paper = newest_paper(stay, "readiness")
    assert paper.signed_at and "Self-caring" in paper.content["headline"]
    assert paper.revision == chart_for(stay).revision
    assert reprint(actor=demo.actors["amber"], paper=paper).startswith(b"%PDF-")


def test_a_call_now_sign_is_open_and_nothing_has_come_out_since(demo):
    chart = chart_for(demo.stays["Eastwater"])
    (caution,) = assess(chart, DEFAULT, AFTERNOON).cautions
    assert (caution.list, caution.told) == ("call_now", None)


def test_powder_was_misused_and_is_put_right(demo):
    stay = demo.stays["Birchwell"]
    told = Rating.objects.filter(stay=stay, row__code="powder").order_by("account__began_at")
    assert [each.answer for each in told] == ["wrong", "not_needed", "not_needed"]


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
    here = dict(StayNow.objects.exclude(name__endswith="Longago").values_list("name", "unit__name"))
    assert sum(unit == HERON for unit in here.values()) == len(EVERYONE) - 1


def test_every_person_every_ward_says_it_is_made_up(demo):
    assert all("(made up)" in unit.name for unit in Unit.objects.all())
    assert len({(story.given, story.family) for story in EVERYONE}) == len(STORIES) + len(MORE_STORIES) + len(
        LATER_STORIES
    )


def test_it_is_built_by_verbs_alone(demo):
    """Each account, stay and clinician has the trail line of the verb that made it."""
    verbs = TrailLine.objects.values_list("verb", flat=True)
    signing = ("record_session", "record_care", "record_recheck", "rate_beside", "correct_account")
    now_here = Account.objects.exclude(stay__now__name__endswith="Longago")
    assert sum(verb in signing for verb in verbs) == now_here.count() > 100
    assert sum(verb == "open_stay" for verb in verbs) == len(EVERYONE)
    assert sum(verb == "record_past_stay" for verb in verbs) == HOW_MANY == Stay.objects.count() - len(EVERYONE)
    assert sum(verb == "register_clinician" for verb in verbs) == Clinician.objects.count() == len(CAST)


