"""The nurses' skills that come with the house: published where a house begins, and by `publish_skills`."""

import json
from pathlib import Path

from teaching.models import SkillVersion
from teaching.record.actor import Actor
from teaching.record.skills import publish_skills

SHIPPED = Path(__file__).resolve().parents[2] / "fixtures" / "skills-1.json"


def publish_shipped_skills(actor: Actor) -> list[SkillVersion]:
    """Again is no harm: the versions that stand are given back."""
    return publish_skills(actor=actor, content=json.loads(SHIPPED.read_text(encoding="utf-8")))
