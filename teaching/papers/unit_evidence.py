"""A unit's evidence of its nurses' competence, for an accreditor: who, what, when, by whom, what was required then.

It is about a time, from one day to another: whoever worked there in it, and every sign-off that ran in it.
Nurses stand by name. Nobody is ranked, and no person in care is named.
"""

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import date, datetime
from typing import Any

from teaching.papers.competence_record_lines import Requirements, SignOffLine, Span, seen_said, sign_off_lines
from teaching.papers.dated import dated
from teaching.rules.competence import asked_of, spoken_day, standing
from teaching.rules.competence_facts import Nurse, Skill
from teaching.rules.lines import Policy
from teaching.rules.skill_history import History, required_of, skills_at
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
    period: str
    at_end: str
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
            f"Evidence of nurses' competence, {self.unit}, {self.period}. Printed and kept {self.printed_at} by "
            f"{self.printed_by}. Policy version {self.policy}."
        )

    @property
    def plain(self) -> dict[str, Any]:
        """What is kept beside the bytes."""
        return asdict(self)


def unit_evidence(
    *,
    nurses: Iterable[Nurse],
    history: History,
    ward: Ward,
    first: date,
    last: date,
    now: datetime,
    unit: str,
    printed_by: str,
) -> UnitEvidence:
    """The evidence from the `first` to the `last` day, both whole, on the ward's clock, as it is known at `now` (UTC).

    Judged as of the end of the last day, or now where that is sooner, by the skills and the policy of that moment.
    """
    span = span_of(first, last, ward)
    at = min(span[1], now)
    policy, names, made = history.policy_at(at), Requirements(ward), dated(now, ward)
    view = _View(history, names, policy, ward, span, at)
    named = sorted(nurses, key=lambda each: (each.name.casefold(), each.key))
    found = tuple(_skill(skill, named, view) for skill in skills_at(history, at))
    period = f"{spoken_day(span[0], ward)} to {spoken_day(span[1], ward)}"
    return UnitEvidence(
        unit=unit,
        period=period,
        at_end=spoken_day(at, ward),
        headline=f"{period}, {'1 nurse' if len(named) == 1 else f'{len(named)} nurses'}, kept {made} by {printed_by}",
        reason=_reason(policy),
        skills=found,
        requirements=names.lines,
        printed_at=made,
        printed_by=printed_by,
        policy=policy.version,
    )


def span_of(first: date, last: date, ward: Ward) -> Span:
    """The first moment of the first day and the last of the last, on the ward's clock."""
    return ward.begins(first), ward.ends(last)


@dataclass(frozen=True)
class _View:
    history: History
    names: Requirements
    policy: Policy
    ward: Ward
    span: Span
    at: datetime


def _reason(policy: Policy) -> str:
    line = next(line for line in policy.lines if line.name == REASON)
    return f"Why it is kept: {line.why} {line.source}."


def _skill(skill: Skill, nurses: list[Nurse], view: _View) -> SkillEvidence:
    asked = [nurse for nurse in nurses if asked_of(nurse, skill)]
    found = tuple(_nurse(nurse, skill, view) for nurse in asked)
    held = sum(standing(nurse, skill, view.policy, view.at, view.ward).valid for nurse in asked)
    day = spoken_day(view.at, view.ward)
    count = f"Asked of {'1 nurse' if len(asked) == 1 else f'{len(asked)} nurses'}; {held} signed off on {day}."
    return SkillEvidence(skill.title, count, found)


def _nurse(nurse: Nurse, skill: Skill, view: _View) -> NurseEvidence:
    one = standing(nurse, skill, view.policy, view.at, view.ward)
    lines = sign_off_lines(nurse, skill, view.history, view.names, view.ward, view.span)
    required = required_of(view.history, skill.code, skill.version, skill.title, view.at)
    return NurseEvidence(
        name=nurse.name,
        grade=GRADES[nurse.grade],
        state=one.state,
        lines=lines,
        so_far="" if lines else seen_said(one.counted, view.ward),
        required="" if lines else view.names.name(required),
    )
