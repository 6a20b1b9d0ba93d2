"""What readiness, the plan and the handover say, read back: "1 hour" and "2 hours", and nobody named twice at once."""

import contextlib
import re
from dataclasses import replace
from datetime import date

import pytest
from going_home import Going, only
from hypothesis import given, settings
from story import at
from test_readiness_properties import charts
from test_readiness_stories import STORIES

from teaching.rules.assess import assess
from teaching.rules.facts import Learner
from teaching.rules.handover.helper_hours import hours_there
from teaching.rules.handover.parts import Beside, Judged, Who
from teaching.rules.handover.sbar import handover
from teaching.rules.huddle import when
from teaching.rules.outlook import outlook
from teaching.rules.plan import plan
from teaching.rules.policy import DEFAULT, PolicyRefused
from teaching.rules.readiness import ready
from teaching.rules.readiness_said import gap_said
from teaching.rules.reasons import words

HELPER, PERSON = "Quilla Wife", "Quentin Foxcombe"
NAMES = re.compile(rf"Quilla [A-Z]\w+|{PERSON}")
WHO = Who(PERSON, date(1950, 1, 2), "000-00", "A1", "English")
ONE_OF_MANY = re.compile(r"(?<![\d.:-])1 (?!mm|d\b|h\b|min\b)[a-z]+s\b")
NOW = at("Wed 18:00")


def named(chart):
    """The same people with full names."""
    learners = tuple(
        replace(one, name=f"Quilla {one.key.capitalize()}" if one.kind == "helper" else PERSON)
        for one in chart.learners
    )
    return replace(chart, learners=learners)


def said_of(chart, policy, now):
    """Every sentence of one stay, each with its leading label."""
    assessment = assess(chart, policy, now)
    judged = ready(chart, assessment, policy, now)
    planned = plan(chart, assessment, policy, now)
    for gap in (*judged.gaps, *judged.missing):
        told = gap_said(chart, gap, PERSON, now, lambda moment: when(moment, chart.ward, now))
        yield told.words
        yield from (way.words for way in told.ways)
    yield from (words(reason) for reason in judged.because)
    yield from (words(one.reason) for one in (planned, *planned.moves) if hasattr(one, "reason"))
    yield words(planned.said)
    found, _ = outlook(chart, assessment, judged, policy, now)
    yield from (found.why, found.helps, found.plan)
    gaps = tuple(gap.reason for gap in (*judged.gaps, *judged.missing))
    beside = Beside(readiness=Judged(judged.words, gaps), plan=(found.plan,) if found.plan else ())
    for part in handover(chart, assessment, policy, now, WHO, beside).parts:
        yield from (line.said for line in part.lines)


def faults(sentence):
    if ONE_OF_MANY.search(sentence):
        yield "one of many"
    clauses = re.split(r"[.;(]|, ", sentence)
    if any(clause.count(name) > 1 for clause in clauses for name in NAMES.findall(clause)):
        yield "named twice"
    if re.search(r"\b(\w[\w ]{2,}): \1\b", sentence):
        yield "said twice"


@pytest.mark.parametrize("told", ["1 topics left.", f"{HELPER}: {HELPER}: ask.", f"{HELPER}: ask {HELPER}."])
def test_what_is_looked_for_is_found(told):
    assert list(faults(told))


@pytest.mark.parametrize(("name", "story", "now", "result", "parts"), STORIES, ids=[row[0] for row in STORIES])
def test_in_each_story(name, story, now, result, parts):
    told = list(said_of(named(story.chart), story.policy, at(now)))
    assert {sentence: list(faults(sentence)) for sentence in told if any(faults(sentence))} == {}


def ones():
    """Each bound that may be one (hour, showing) set to one."""
    found = DEFAULT
    for line in DEFAULT.lines:
        with contextlib.suppress(PolicyRefused):
            found = found.with_overrides({line.name: 1})
    return found


ONES = ones()


@given(charts())
@settings(max_examples=40, deadline=None)
def test_of_anybody_and_where_each_bound_is_one_hour(chart):
    chart = named(chart)
    for policy in (DEFAULT, ONES):
        told = list(said_of(chart, policy, NOW))
        assert {sentence: list(faults(sentence)) for sentence in told if any(faults(sentence))} == {}


@pytest.mark.parametrize(("hours", "said"), [(1, "1 hour"), (2, "2 hours")])
def test_one_and_two_bare_hours(hours, said):
    """Nobody is there from Thursday 20:00 on for so long."""
    away = (f"Thu {20:02}:00", f"Thu {20 + hours}:00", False)
    story = only("topics").helper("wife").comes("wife", "1" * 168, away)
    story.holds("pouch", "change", "topics", learner="wife")
    chart = named(story.all_else(but=("leak-service",)).chart)
    assert any(f"a full pouch: {said}, the first" in sentence for sentence in said_of(chart, DEFAULT, NOW))


@pytest.mark.parametrize(("left_out", "said"), [(1, "1 topic not explained"), (2, "2 topics not explained")])
def test_one_and_two_topics(left_out, said):
    """Of those that a visiting nurse, or anybody, may explain."""
    story = Going().holds("pouch", "change")
    others = [code for code in story.rows("topics").split() if not story.chart.checklist.by_code[code].hard_minimum]
    story.holds("topics", but=others[:left_out]).all_else()
    assert any(said in sentence for sentence in said_of(story.chart, DEFAULT, NOW))


@pytest.mark.parametrize(("minutes", "said"), [(1, "1 minute away"), (2, "2 minutes away")])
def test_one_and_two_minutes_away(minutes, said):
    helper = Learner("wife", "helper", HELPER, minutes_away=minutes)
    assert said in hours_there(helper, Going().chart.ward, NOW)


def test_a_helper_whose_hours_are_not_said_is_named_once():
    story = only("topics").helper("wife")
    story.holds("pouch", "change", "topics", learner="wife")
    chart = named(story.chart)
    told = list(said_of(chart, DEFAULT, NOW))
    assert f"Ask at which hours {HELPER} is there." in told
