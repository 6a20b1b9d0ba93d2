"""What was required of a nurse at an earlier moment, and what a sign-off rested on then: nothing is judged anew."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime

from teaching.rules.competence import counting, in_force, is_valid
from teaching.rules.competence_facts import Nurse, Practice, SignOff, Skill
from teaching.rules.lines import Policy
from teaching.rules.policy import DEFAULT


@dataclass(frozen=True, slots=True)
class Published:
    skill: Skill
    at: datetime


@dataclass(frozen=True, slots=True)
class Written:
    """When a practice was written down, and when it was taken back (None: it stands)."""

    at: datetime
    taken_back: datetime | None = None


@dataclass(frozen=True)
class History:
    """`policies` are the hospital's as (in force from, policy), oldest first; before the first, our defaults.

    `written` by practice key; `signed_by` by (nurse, skill, number of the sign-off): the version, None for a
    certificate from elsewhere.
    """

    skills: tuple[Published, ...]
    policies: tuple[tuple[datetime, Policy], ...] = ()
    written: Mapping[str, Written] = field(default_factory=dict)
    signed_by: Mapping[tuple[str, str, int], int | None] = field(default_factory=dict)

    def policy_at(self, at: datetime) -> Policy:
        return next((policy for since, policy in reversed(self.policies) if since <= at), DEFAULT)

    def version(self, skill: str, number: int) -> Published:
        return next(each for each in self.skills if (each.skill.code, each.skill.version) == (skill, number))


@dataclass(frozen=True, slots=True)
class Requirement:
    """What stood at a moment. `version` None: a certificate from elsewhere, where only the longest end is ours.

    Months: how long a sign-off lasts, and the longest it may.
    """

    skill: str
    title: str
    version: int | None
    published: datetime | None
    practices: int
    at_five: int
    with_person: int
    renewing: int
    lasts: int
    longest: int
    policy: str


def required_of(history: History, skill: str, version: int | None, title: str, at: datetime) -> Requirement:
    """What this version and the hospital's policy of that moment asked for."""
    policy = history.policy_at(at)
    lasts, longest = min(policy.sign_off_lasts, policy.sign_off_longest), policy.sign_off_longest
    if version is None:
        return Requirement(skill, title, None, None, 0, 0, 0, 0, lasts, longest, policy.version)
    found = history.version(skill, version)
    told = found.skill
    return Requirement(
        skill, told.title, version, found.at, told.practices, told.at_five,
        min(told.at_five, policy.practices_with_person), told.renewing, lasts, longest, policy.version,
    )  # fmt: skip


def skills_at(history: History, at: datetime) -> tuple[Skill, ...]:
    """The version of each skill that was in force at a moment; none of one not published by then."""
    newest = {each.skill.code: each.skill for each in sorted(history.skills, key=lambda each: each.at) if each.at <= at}
    return tuple(newest[code] for code in dict.fromkeys(each.skill.code for each in history.skills) if code in newest)


def in_span(nurse: Nurse, one: SignOff, first: datetime, last: datetime) -> bool:
    """Whether a sign-off ran at some moment of a span, both ends within; a withdrawal, whether it was made in it.

    The next grant or withdrawal of the skill ends the one before, once it is on record.
    """
    if one.kind == "withdrawn":
        return first <= one.valid_from <= last
    next_ones = [each for each in nurse.sign_offs if each.skill == one.skill and each.number > one.number]
    later = [max(each.valid_from, each.written_at or each.valid_from) for each in next_ones]
    return one.valid_from <= last and min([one.valid_until, *later]) >= first


def renewed(nurse: Nurse, sign_off: SignOff) -> bool:
    """Whether another still ran when this one was given."""
    return is_valid(_before(nurse, sign_off), sign_off.valid_from)


def rested_on(nurse: Nurse, skill: Skill, sign_off: SignOff, history: History) -> tuple[Practice, ...]:
    """The practices that counted when it was given, as they were known then; none for a certificate or withdrawal.

    One taken back later is among them, and says so in `taken_back`.
    """
    if sign_off.kind != "granted" or sign_off.certificate:
        return ()
    at = sign_off.valid_from
    known = [each for each in nurse.practices if each.key in history.written and history.written[each.key].at <= at]
    then = replace(nurse, practices=tuple(replace(each, taken_back=_gone(history, each, at)) for each in known))
    now = {each.key: each for each in nurse.practices}
    return tuple(now[each.key] for each in counting(then, skill, _before(nurse, sign_off), at))


def _gone(history: History, practice: Practice, at: datetime) -> bool:
    taken_back = history.written[practice.key].taken_back
    return taken_back is not None and taken_back <= at


def _before(nurse: Nurse, sign_off: SignOff) -> SignOff | None:
    earlier = [each for each in nurse.sign_offs if each.number < sign_off.number]
    return in_force(earlier, sign_off.skill, sign_off.valid_from)
