"""What was required of nurses, and since when: versions, policies and when each practice was written. Four queries."""

from collections.abc import Sequence
from typing import Any

from teaching.models import PolicyVersion, Practice, SignOff, SkillVersion
from teaching.record.prepared import read, read_all
from teaching.record.skills import skill_of
from teaching.rules.policy import DEFAULT
from teaching.rules.skill_history import History, Published, Written

POLICY = ("unit_id", "number", "overrides", "effective_from")
PRACTICE = ("uid", "id", "recorded_at", "takes_back_id")
SIGN_OFF = ("nurse_id", "skill", "number", "skill_version__number")


def skill_history(keys: Sequence[int]) -> History:
    """Every version and hospital policy there was; when practices of these clinicians (by key) were written down."""
    versions = SkillVersion.objects.order_by("skill", "number")
    return History(
        skills=tuple(Published(skill_of(version), version.published_at) for version in versions),
        policies=_policies(),
        written=_written(read(Practice, PRACTICE, "nurse_id", keys)),
        signed_by={
            (str(row.nurse_id), row.skill, row.number): row.skill_version__number
            for row in read(SignOff, SIGN_OFF, "nurse_id", keys)
        },
    )


def _policies():
    """The hospital's own alone: a skill is the nurse's wherever they work."""
    rows = [row for row in read_all(PolicyVersion, POLICY) if row.unit_id is None]
    rows.sort(key=lambda row: (row.effective_from, row.number))
    return tuple(
        (row.effective_from, DEFAULT.with_overrides(row.overrides) if row.overrides else DEFAULT) for row in rows
    )


def _written(rows: Sequence[Any]) -> dict[str, Written]:
    gone = {row.takes_back_id: row.recorded_at for row in rows if row.takes_back_id}
    return {str(row.uid): Written(row.recorded_at, gone.get(row.id)) for row in rows if not row.takes_back_id}
