"""A nurse's competence record: each skill, what was seen and signed, what was required then; confidence apart."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from teaching.papers.competence_record_lines import (
    PracticeLine,
    Requirements,
    SignOffLine,
    practice_lines,
    sign_off_lines,
)
from teaching.papers.dated import dated
from teaching.rules.competence import Standing, asked_of, spoken_day, standing
from teaching.rules.competence_facts import Nurse, Skill
from teaching.rules.lines import Policy
from teaching.rules.reasons import words
from teaching.rules.skill_history import History
from teaching.rules.vocabulary import BONDY, GRADES, PracticeLevel
from teaching.rules.ward import Ward

MET = "All that is required was seen. A holder may sign it."


@dataclass(frozen=True, slots=True)
class SkillRecord:
    title: str
    state: str
    clocks: tuple[str, ...]
    required_head: str
    required: tuple[str, ...]
    sign_offs: tuple[SignOffLine, ...]
    practices: tuple[PracticeLine, ...]


@dataclass(frozen=True, slots=True)
class CompetenceRecord:
    """Everything the paper says. `confidence` as (skill, words): the nurse's own, no evidence."""

    name: str
    grade: str
    unit: str
    skills: tuple[SkillRecord, ...]
    requirements: tuple[tuple[str, str], ...]
    confidence: tuple[tuple[str, str], ...]
    printed_at: str
    printed_by: str
    policy: str

    levels: tuple[tuple[str, PracticeLevel], ...] = tuple(BONDY.items())

    @property
    def foot(self) -> str:
        return (
            f"{self.name}, {self.grade}. Competence record, {self.unit}. Printed {self.printed_at} by "
            f"{self.printed_by}. Policy version {self.policy}. It says what was seen and signed."
        )


def competence_record(
    *,
    nurse: Nurse,
    skills: Sequence[Skill],
    history: History,
    policy: Policy,
    ward: Ward,
    now: datetime,
    unit: str,
    printed_by: str,
) -> CompetenceRecord:
    """The record as it stands at `now` (UTC), of the skills that are asked of this grade or begun."""
    asked, names = [skill for skill in skills if asked_of(nurse, skill)], Requirements(ward)
    return CompetenceRecord(
        name=nurse.name,
        grade=GRADES[nurse.grade],
        unit=unit,
        skills=tuple(_skill(nurse, standing(nurse, skill, policy, now, ward), history, names, ward) for skill in asked),
        requirements=names.lines,
        confidence=tuple((skill.title, _confidence(nurse, skill, ward)) for skill in asked),
        printed_at=dated(now, ward),
        printed_by=printed_by,
        policy=policy.version,
    )


def clocks(one: Standing, ward: Ward) -> tuple[str, str]:
    """The two clocks of a skill: signed off until, last used with a person."""
    until = f"Signed off until {spoken_day(one.until, ward)}" if one.valid and one.until else "Not signed off now"
    used = "done" if one.skill.code == "change" else "taught"
    return until, f"last {used} {spoken_day(one.last_taught, ward)}" if one.last_taught else f"not {used} here yet"


def _skill(nurse: Nurse, one: Standing, history: History, names: Requirements, ward: Ward) -> SkillRecord:
    return SkillRecord(
        title=one.skill.title,
        state=one.state,
        clocks=clocks(one, ward),
        required_head="To renew it" if one.valid else "Still required",
        required=(MET,) if one.met else tuple(words(reason) for reason in one.required),
        sign_offs=sign_off_lines(nurse, one.skill, history, names, ward),
        practices=practice_lines(nurse, one.skill, history, names, ward),
    )


def _confidence(nurse: Nurse, skill: Skill, ward: Ward) -> str:
    said = next((each for each in nurse.self_ratings if each.skill == skill.code), None)
    return f"{said.confidence} of 6, said {spoken_day(said.at, ward)}" if said else "not said yet"
