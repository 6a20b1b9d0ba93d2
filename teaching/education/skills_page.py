"""Nurses by skill: a grid by state, shape and word, in the order of the alphabet. Nobody is ranked or counted out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.urls import reverse

from teaching.access.working import Working
from teaching.rules.competence import Standing, asked_of, spoken_day, standing
from teaching.rules.competence_facts import Nurse, Skill
from teaching.rules.lines import Policy
from teaching.rules.vocabulary import SKILL_STATES
from teaching.rules.ward import Ward

ROLES_SHOWN = {"ward-nurse", "assistant", "educator", "stoma-nurse"}
STATE_WORDS = {
    "not begun": "nothing observed yet",
    "practising": "observed, more is required",
    "ready for sign-off": "all that is required was seen",
    "signed off": "until the day that stands there",
    "due soon": "signed off, and the day is near",
    "lapsed": "the day is past",
    "withdrawn": "taken back, with a reason",
}


@dataclass(frozen=True, slots=True)
class Cell:
    """One nurse, one skill by its name: the state in a word, and the two clocks in words."""

    skill: str
    state: str
    until: str
    taught: str


@dataclass(frozen=True, slots=True)
class Line:
    """`cells` are in the order of the skills; None where a skill is not asked of this grade."""

    name: str
    address: str
    cells: tuple[Cell | None, ...]


def shown(people: Sequence[Working]) -> list[Working]:
    """Those whose skills this page is about."""
    return [each for each in people if each.roles & ROLES_SHOWN]


class SkillsPage:
    def __init__(
        self,
        unit,
        people: Sequence[Working],
        nurses: Mapping[int, Nurse],
        skills: Sequence[Skill],
        policy: Policy,
        ward: Ward,
        now: datetime,
        other_units=(),
    ):
        self.unit = unit.name
        self.skills = [skill.title for skill in skills]
        self._address = _addresses(unit)
        named = sorted(people, key=lambda each: nurses[each.key].name.casefold())
        stands = [
            (each, nurses[each.key], [_standing(nurses[each.key], skill, policy, now, ward) for skill in skills])
            for each in named
        ]
        self.lines = [
            Line(nurse.name, self._address(each.uid), tuple(_cell(one, ward) for one in found))
            for each, nurse, found in stands
        ]
        self.counts = [_count(skill, [found[place] for _, _, found in stands]) for place, skill in enumerate(skills)]
        self.next_up = self._next_up(stands, ward)
        self.key = [(state, STATE_WORDS[state]) for state in SKILL_STATES]
        self.other_units = [(reverse("nurses-by-skill", args=[other.uid]), other.name) for other in other_units]

    def _next_up(self, stands, ward: Ward) -> list[tuple[str, str, str]]:
        """What an educator can do today: (name, address, sentence), by name."""
        return [
            (nurse.name, self._address(each.uid), said)
            for each, nurse, found in stands
            for one in found
            if one and (said := _to_do(one, ward))
        ]


def _addresses(unit):
    """One look-up of the address for all nurses: reversing 120 times costs more than judging them."""
    nobody = UUID(int=0)
    pattern = reverse("nurse-skills", args=[unit.uid, nobody])
    return lambda uid: pattern.replace(str(nobody), str(uid))


def _standing(nurse: Nurse, skill: Skill, policy: Policy, now: datetime, ward: Ward) -> Standing | None:
    return standing(nurse, skill, policy, now, ward) if asked_of(nurse, skill) else None


def _cell(one: Standing | None, ward: Ward) -> Cell | None:
    if one is None:
        return None
    until = f"{'until' if one.valid else 'was until'} {spoken_day(one.until, ward)}" if one.until else ""
    done = "done" if one.skill.code == "change" else "taught"
    taught = f"last {done} {spoken_day(one.last_taught, ward)}" if one.last_taught else ""
    return Cell(one.skill.title, one.state, until, taught)


def _count(skill: Skill, found: Sequence[Standing | None]) -> str:
    """Such as "Do a change: 4 signed off now." With nobody, what opens the door."""
    now = sum(one is not None and one.valid for one in found)
    if now:
        return f"{skill.title}: {now} signed off now."
    return f"{skill.title}: nobody is signed off now. The unit lead accepts a certificate from elsewhere, by name."


def _to_do(one: Standing, ward: Ward) -> str:
    title = one.skill.title.lower()
    if one.state == "ready for sign-off":
        return f"ready for sign-off: {title}."
    if one.state == "due soon" and one.until:
        renew = "; ready to renew" if one.met else ""
        return f"{title}, until {spoken_day(one.until, ward)}{renew}."
    return ""
