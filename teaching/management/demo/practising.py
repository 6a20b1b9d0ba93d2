"""Nurses of the invented hospital on their way: one practising, one ready, one lapsed; all of it made up."""

from datetime import timedelta

from teaching.management.shipped_skills import publish_shipped_skills
from teaching.record import staff
from teaching.record.actor import Actor
from teaching.record.huddle_ticks import tick_huddle
from teaching.record.places import ward_of
from teaching.record.practices import record_practice
from teaching.record.skills import ask_to_be_observed, rate_oneself, skills_in_force

HERON = "Heron Ward (made up)"
# nurse, skill, days ago, where, level of every row, and the rows that differ
SEEN = (
    ("basil", "change", 20, "bench", "4", {"dc-measure": "3", "dc-write": "X"}),
    ("basil", "change", 6, "person", "5", {"dc-measure": "4"}),
    ("basil", "teach-bowel", 4, "simulation", "4", {"tb-helper": "X", "tb-hands": "3"}),
    ("nadia", "change", 30, "simulation", "4", {}),
    ("nadia", "change", 12, "bench", "5", {}),
    ("nadia", "change", 3, "person", "5", {}),
)
SURE = (("basil", "change", 4), ("basil", "teach-bowel", 2), ("nadia", "change", 5))


def practise(demo) -> None:
    """After the certificates of the cast are accepted: the stoma nurse observes, the nurses say how sure they feel."""
    unit, sorrel = demo.units[HERON], demo.actors["sorrel"]
    publish_shipped_skills(Actor(clinician=None))
    lapsed(demo)
    rows = {skill.code: [row.code for row in skill.rows] for skill in skills_in_force()}
    for who, skill, days, where, level, differ in SEEN:
        record_practice(
            actor=sorrel, nurse=demo.actors[who].clinician, skill=skill, unit=unit, setting=where,
            levels=dict.fromkeys(rows[skill], level) | differ, at=demo.now - timedelta(days=days),
        )  # fmt: skip
    for who, skill, confidence in SURE:
        rate_oneself(actor=demo.actors[who], skill=skill, confidence=confidence)
    ask_to_be_observed(actor=demo.actors["basil"], unit=unit, skill="change")
    amber = demo.actors["amber"].clinician
    for later in (timedelta(), timedelta(hours=8)):
        day, shift = ward_of(unit).shift(demo.now + later)
        tick_huddle(actor=demo.actors["linden"], unit=unit, day=day, shift=shift, may_teach={amber.pk: True})


def lapsed(demo) -> None:
    """A certificate that ran out last month."""
    staff.accept_certificate(
        actor=demo.actors["linden"], nurse=demo.actors["nadia"].clinician, skill="teach-urostomy",
        unit=demo.units[HERON], certificate="Made-up college, seen by the unit lead",
        valid_from=demo.now - timedelta(days=395), valid_until=demo.now - timedelta(days=30),
    )  # fmt: skip
