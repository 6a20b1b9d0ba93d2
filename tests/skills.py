"""Nurses' skills in made-up houses, by the product's own verbs: for the tests of every floor."""

import json
from datetime import timedelta
from functools import cache
from pathlib import Path

from django.utils import timezone

from teaching.models import Unit
from teaching.record.practices import record_practice
from teaching.record.skills import publish_skills, skills_in_force
from teaching.record.staff import accept_certificate

FILE = Path(__file__).parents[1] / "fixtures" / "skills-1.json"


@cache
def skills_file():
    return json.loads(FILE.read_text(encoding="utf-8"))


def publish(actor):
    return publish_skills(actor=actor, content=skills_file())


def rows_of(skill):
    return [row.code for one in skills_in_force() if one.code == skill for row in one.rows]


def certify(lead, nurse, skill="change", days_ago=100, days_left=200):
    """A certificate that the lead accepts by name."""
    now = timezone.now()
    return accept_certificate(
        actor=lead, nurse=nurse.clinician, skill=skill, certificate="Made-up college, 2026",
        unit=Unit.objects.filter(memberships__clinician=lead.clinician)[0],
        valid_from=now - timedelta(days=days_ago), valid_until=now + timedelta(days=days_left),
    )  # fmt: skip


def observe(assessor, nurse, unit, skill="change", level="5", setting="person", hours_ago=1, **rows):
    """A practice at one level for every row, or as `rows` say (with _ for -)."""
    levels = dict.fromkeys(rows_of(skill), level) | {code.replace("_", "-"): told for code, told in rows.items()}
    return record_practice(
        actor=assessor, nurse=nurse.clinician, skill=skill, unit=unit, setting=setting, levels=levels,
        at=timezone.now() - timedelta(hours=hours_ago),
    )  # fmt: skip
