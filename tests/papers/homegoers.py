"""Invented people on their way home, one of each kind of stoma and one with two, told as stories of the rules."""

import sys
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "rules"))

from going_home import ALL_HOURS, FLUID_PLAN, Going, at

from teaching.papers.against_plan import MEANING, against_plan, leaving_now
from teaching.papers.readiness_record import Person, Signature, readiness_record
from teaching.papers.take_home import take_home
from teaching.rules.assess import assess
from teaching.rules.readiness import ready

NOW = at("Wed 18:00")
SLOTS = {
    "press-minutes": "10", "hours-without-urine": "4", "urine-drink": "2 litres", "place-to-go": "the ward on Elm Road",
}  # fmt: skip
PHONES = (("Stoma nurses (made up)", "00000 000 100", "Mon to Fri 08:00-16:00"),)
PERSON = Person("Ada Fernhollow", "2 Mar 1958", "000-A1", "Heron Ward (made up)", "bed A1")
SIGNED = Signature("Piers Hollow", "discharge planner", "Wed 13 May 2026 18:02", MEANING)


def colostomy():
    """A closed two-piece pouch, pre-cut; all held by the person."""
    story = Going("colostomy", closure="closed", outlet="", opening="pre-cut", pre_cut_mm=35.0)
    return _told(story.holds("pouch", "change", "topics"))


def ileostomy():
    """Cut to fit, powder and ring; the husband changes, a nurse comes; a high output once, with its plan."""
    story = Going("ileostomy", items=frozenset({"powder", "seal"})).holds("pouch", "topics")
    story.helper("Hugo").comes("Hugo", ALL_HOURS).holds("pouch", "change", "topics", learner="Hugo")
    story.visit("Fri 10:00").total("Tue 07:00", 1600).arranged("fluid-plan", **FLUID_PLAN)
    story.finds("Wed 09:00", "size", "learner", width_mm=32.0, height_mm=30.0)
    story.caution("output-today", "Tue 09:00", told="Tue 10:00", words="Output 1500 mL or more in 24 hours")
    return _told(story)


def urostomy():
    """A tap, a night bag, two stents with their day; nothing of the change shown yet."""
    story = Going("urostomy", outlet="tap", items=frozenset({"night-bag"})).holds("pouch", "night", "topics")
    story.care("change", "Wed 09:00").state("stents", "Mon 00:00").arranged("stents-out", due="Mon+1 09:00")
    story.finds("Wed 09:00", "size", "learner", width_mm=28.0, height_mm=28.0)
    return _told(story)


def two_stomas():
    """A urostomy on the right, a colostomy on the left."""
    story = Going("urostomy", outlet="tap", items=frozenset({"night-bag"}))
    story.stoma("left", "colostomy", interval_hours=96)
    right, left = story.chart.stomas
    story.chart = replace(story.chart, stomas=(replace(right, label="right"), left))
    story.holds("pouch", "night", "change", "topics").holds("pouch", "topics", stoma="left")
    return _told(story.care("change", "Wed 10:00", stoma="left"))


def _told(story):
    formed = at("Mon 00:00") - timedelta(days=3)
    sides = ("right", "left")
    stomas = (replace(one, side=side, formed_at=formed) for one, side in zip(story.chart.stomas, sides, strict=False))
    story.chart = replace(story.chart, stomas=tuple(stomas))
    return story.all_else()


PEOPLE = {"colostomy": colostomy, "ileostomy": ileostomy, "urostomy": urostomy, "two stomas": two_stomas}


def judged(story, now=NOW):
    found = assess(story.chart, story.policy, now)
    return found, ready(story.chart, found, story.policy, now)


def record_of(story, now=NOW, **more):
    found, readiness = judged(story, now)
    return readiness_record(story.chart, found, readiness, story.policy, now, person=PERSON, **more)


def sheet_of(story, now=NOW, size=14, slots=SLOTS):
    found, readiness = judged(story, now)
    return take_home(
        story.chart, found, readiness, story.policy, now, person=PERSON, slots=slots, phones=PHONES, size=size,
        made_by="Amber Oakley",
    )  # fmt: skip


def leaving_of(story, now=NOW, slots=SLOTS, **more):
    readiness = leaving_now(story.chart, story.policy, now)
    said = {
        "told": "Dr Nettle (made up)", "told_at": now - timedelta(minutes=10), "kit_days": 7,
        "number": "00000 000 200", "call_by": "Sorrel Vane, stoma nurse", "call_at": now + timedelta(hours=16),
        "signature": SIGNED, **more,
    }  # fmt: skip
    return against_plan(story.chart, readiness, story.policy, now, person=PERSON, slots=slots, **said)
