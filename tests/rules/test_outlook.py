"""What would help most is always an act: a verb of a small closed set, what, who could and by when."""

import ast
import string
from dataclasses import replace
from pathlib import Path

import pytest
from going_home import Going, all_held, only
from hypothesis import given, settings
from story import WARD_NURSE, at
from test_readiness_properties import charts
from test_readiness_stories import STORIES, mr_b, mr_e, mr_g, mr_h, mr_n, mr_u, mrs_i

from teaching.rules import reasons
from teaching.rules.acts import ACTS
from teaching.rules.assess import assess
from teaching.rules.outlook import outlook
from teaching.rules.reasons import WORDS
from teaching.rules.standing import TICK
from tests.verbs import VERBS

RULES = Path(reasons.__file__).parent
ROWS = ("independence", "topics", "looking", "reopening", "floors")
# Never the first thing that a way says: headings of a gap with ways of its own, and what is held.
NO_ACT = {
    "gap-hours", "gap-change", "gap-change-some-time", "gap-look", "gap-look-some-time", "gap-topics", "gap-wear",
    "unknown-part", "may-look", "same-day", "provisional",
}  # fmt: skip


def told(story, now):
    moment = at(now) if isinstance(now, str) else now
    assessment = assess(story.chart, story.policy, moment)
    return outlook(story.chart, assessment, story.ready(moment), story.policy, moment)


def helps(story, now="Wed 18:00"):
    return told(story, now)[0].helps


def codes_of(*files):
    for file in files:
        for node in ast.walk(ast.parse((RULES / f"{file}.py").read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Reason":
                yield from (part.value for part in ast.walk(node.args[0])
                            if isinstance(part, ast.Constant) and isinstance(part.value, str) and part.value in WORDS)


def test_whatever_may_be_wanting_is_also_an_act():
    wanted = set(codes_of(*ROWS, "gaps", "in_place", "missing", "due", "moves")) - NO_ACT
    assert wanted == set(ACTS)


@pytest.mark.parametrize("code", ACTS)
def test_an_act_begins_with_a_verb(code):
    assert ACTS[code].split()[0].split("{")[0] in VERBS


@pytest.mark.parametrize("code", ACTS)
def test_an_act_asks_only_for_what_its_reason_gives(code):
    """Beside what every way knows: the procedure, the learner, which stoma."""
    always = {"doing", "to", "by", "whom", "learner", "stoma", "later"}
    slots = {name for _, name, _, _ in string.Formatter().parse(ACTS[code]) if name}
    given_by = {
        keyword.arg for file in RULES.glob("*.py") for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Reason"
        and code in {part.value for part in ast.walk(node.args[0]) if isinstance(part, ast.Constant)}
        for keyword in node.keywords
    }  # fmt: skip
    assert slots <= always | given_by or code in ("no-kit", "no-change", "no-interval")


@pytest.mark.parametrize(("name", "story", "now", "result", "parts"), STORIES, ids=[row[0] for row in STORIES])
def test_every_story_that_is_not_there_yet_has_an_act(name, story, now, result, parts):
    found, until = told(story, now)
    assert found.result == result
    assert bool(found.helps) == bool(found.why)
    assert not found.helps or found.helps.split()[0] in VERBS
    assert until is None or until > at(now)


@given(charts())
@settings(max_examples=150, deadline=None)
def test_it_is_an_act_for_anybody(chart):
    story = Going()
    story.chart = chart
    found, until = told(story, at("Wed 18:00"))
    assert found.makes_it == (not found.helps)
    if found.helps:
        assert found.helps.split()[0] in VERBS, found.helps
        assert found.helps.endswith(".") and "{" not in found.helps and ".." not in found.helps
    assert until is None or until > at("Wed 18:00")


def test_8a_tells_and_asks_back():
    assert helps(mr_h(), "Wed 15:00") == (
        "Ask back in own words, from Wed 13 May 18:00 on: Losing too much water and salt "
        "(a nurse at the bedside, by Wed 13 May 16:00)."
    )
    again = mr_h().shows("t-fluid", "not_yet", "Wed 14:30")
    assert helps(again, "Wed 15:00").startswith("Tell again and ask back later: Losing too much water and salt (")


def test_what_need_not_be_waited_for_any_more_is_not_said():
    """Emptied alone Wednesday 10:00; the second showing may be in another shift or four hours later."""
    story = only("change").shows(Going().rows("pouch"), "06", "Wed 10:00").leaving("Wed 20:00")
    early, late = helps(story, "Wed 11:00"), helps(story, "Wed 14:00")
    assert early.startswith("See emptying done alone once more, in another shift or from Wed 13 May 14:00 on: Choose")
    assert late.startswith("See emptying done alone once more: Choose when to empty; ")
    assert late.endswith(" (a nurse at the bedside, by Wed 13 May 20:00).")


def test_with_no_visit_one_is_booked_between_leaving_and_the_margin():
    """Story 5 with nobody coming: changed Monday 10:00, due Thursday 10:00, leaving Tuesday."""
    story = mr_e("Tue 16:00", "Wed 09:00")
    story.chart = replace(story.chart, visits=())
    booked = (
        "Book a nurse's visit for the change, after Tue 12 May 16:00 and by Wed 13 May 10:00, "
        "24 h before it is due Thu 14 May 10:00 (whoever plans the leaving)."
    )
    assert helps(story, "Tue 10:00") == booked
    assert told(story, "Tue 10:00")[0].plan.endswith(f"no change is left before then. {booked}")


def test_two_stomas_and_two_learners_are_told_apart():
    assert "left stoma" in helps(mr_n())
    assert helps(mr_g()).startswith("Teach the person emptying again: Choose when to empty; ")


def test_a_call_now_sign_comes_before_any_move():
    story = mr_e("Tue 16:00", "Wed 09:00").caution("dark-stoma", "Mon 11:00", words="Stoma dark")
    story.chart = replace(story.chart, visits=())
    assert helps(story, "Tue 10:00") == "Tell the surgical team now: Stoma dark."
    assert told(story, "Tue 10:00")[0].plan == "", "no plan of teaching on a handover until somebody is told"
    asked = mr_e("Tue 16:00", "Wed 09:00").caution("dark-stoma", "Mon 11:00", told="Mon 11:05", words="Stoma dark")
    assert helps(asked, "Tue 10:00") == "Ask the surgical team whether this is settled: Stoma dark."


def test_a_helper_whose_hours_nobody_said_is_asked():
    story = only("topics").helper("wife")
    story.holds("pouch", "change", "topics", learner="wife")
    assert helps(story) == "Ask at which hours wife is there (whoever plans the leaving, by Thu 14 May 12:00)."


def test_a_facility_is_asked_for_what_it_has_not_accepted():
    assert helps(mr_u(kit=False)) == (
        "Arrange kit until the first delivery (whoever plans the leaving, by Thu 14 May 12:00)."
    )


def test_it_holds_until_the_first_moment_that_it_names():
    """Mrs I of story 9: the next emptying, Thursday 08:00, is named in the plan's sentence."""
    found, until = told(mrs_i(), "Wed 18:00")
    assert "the next Thu 14 May 08:00" in found.plan
    assert until == at("Thu 08:00")


def test_what_is_held_has_nothing_to_plan():
    found, until = told(all_held(), "Wed 18:00")
    assert (found.helps, found.plan) == ("", "")
    assert until == at("Thu 12:00") + TICK


def test_paused_nothing_is_planned():
    story = mr_b(WARD_NURSE)
    story.chart = replace(story.chart, state="paused")
    assert told(story, "Wed 18:00")[0].plan == ""
