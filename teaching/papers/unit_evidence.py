"""A unit's evidence of its nurses' competence, for an accreditor: who, what, when, by whom, what was required then.

Nurses stand by name. Nobody is ranked, and no person in care is named.
"""

from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from teaching.papers.competence_record_lines import Requirements, SignOffLine, seen_said, sign_off_lines
from teaching.papers.dated import dated
from teaching.rules.competence import asked_of, standing
from teaching.rules.competence_facts import Nurse, Skill
from teaching.rules.lines import Policy
from teaching.rules.skill_history import History, required_of
from teaching.rules.vocabulary import GRADES
from teaching.rules.ward import Ward

KIND = "unit-evidence"
REASON = "sign_off_longest"  # the line of the policy that carries the published reason


@dataclass(frozen=True, slots=True)
class NurseEvidence:
    """One nurse, one skill. `lines` newest first; with none, what was observed so far stands in `so_far`."""

    name: str
    grade: str
    state: str
    lines: tuple[SignOffLine, ...]
    so_far: str
    required: str


@dataclass(frozen=True, slots=True)
class SkillEvidence:
    title: str
    count: str
    nurses: tuple[NurseEvidence, ...]


@dataclass(frozen=True, slots=True)
class UnitEvidence:
    unit: str
    headline: str
    reason: str
    skills: tuple[SkillEvidence, ...]
    requirements: tuple[tuple[str, str], ...]
    printed_at: str
    printed_by: str
    policy: str

    @property
    def foot(self) -> str:
        return (
            f"Evidence of nurses' competence, {self.unit}. Printed and kept {self.printed_at} by {self.printed_by}. "
            f"Policy version {self.policy}."
        )

    @property
    def plain(self) -> dict[str, Any]:
        """What is kept beside the bytes."""
        return asdict(self)


def unit_evidence(
    *,
    nurses: Iterable[Nurse],
    skills: Sequence[Skill],
    history: History,
    policy: Policy,
    ward: Ward,
    now: datetime,
    unit: str,
    printed_by: str,
) -> UnitEvidence:
    """The evidence as it stands at `now` (UTC): every sign-off ever given to these nurses, wherever it was."""
    named = sorted(nurses, key=lambda each: (each.name.casefold(), each.key))
    names, at = Requirements(ward), dated(now, ward)
    found = tuple(_skill(skill, named, history, names, policy, ward, now) for skill in skills)
    return UnitEvidence(
        unit=unit,
        headline=f"{at}, {'1 nurse' if len(named) == 1 else f'{len(named)} nurses'}, kept by {printed_by}",
        reason=_reason(policy),
        skills=found,
        requirements=names.lines,
        printed_at=at,
        printed_by=printed_by,
        policy=policy.version,
    )


def _reason(policy: Policy) -> str:
    line = next(line for line in policy.lines if line.name == REASON)
    return f"Why it is kept: {line.why} {line.source}."


def _skill(
    skill: Skill, nurses: list[Nurse], history: History, names: Requirements, policy: Policy, ward: Ward, now: datetime
) -> SkillEvidence:
    asked = [nurse for nurse in nurses if asked_of(nurse, skill)]
    found = tuple(_nurse(nurse, skill, history, names, policy, ward, now) for nurse in asked)
    held = sum(standing(nurse, skill, policy, now, ward).valid for nurse in asked)
    count = f"Asked of {'1 nurse' if len(asked) == 1 else f'{len(asked)} nurses'}; {held} signed off now."
    return SkillEvidence(skill.title, count, found)


def _nurse(
    nurse: Nurse, skill: Skill, history: History, names: Requirements, policy: Policy, ward: Ward, now: datetime
) -> NurseEvidence:
    one = standing(nurse, skill, policy, now, ward)
    lines = sign_off_lines(nurse, skill, history, names, ward)
    required = required_of(history, skill.code, skill.version, skill.title, now)
    return NurseEvidence(
        name=nurse.name,
        grade=GRADES[nurse.grade],
        state=one.state,
        lines=lines,
        so_far="" if lines else seen_said(one.counted, ward),
        required="" if lines else names.name(required),
    )
