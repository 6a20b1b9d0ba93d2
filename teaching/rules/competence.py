"""Where a nurse stands in one skill at a moment: the state, what is still required, and two clocks.

What counts is what was observed since the last sign-off or withdrawal, row by row, on the five levels of Bondy 1983
(J Nurs Educ 22(9)). X is not observed: never a level, never averaged, never a zero. How sure a nurse feels is not read.
No published number of practices makes a nurse competent; the version's own numbers are common practice.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from teaching.rules.competence_facts import NOT_OBSERVED, Nurse, Practice, SignOff, Skill
from teaching.rules.lines import Policy
from teaching.rules.reasons import MONTHS, Reason
from teaching.rules.vocabulary import BONDY, INDEPENDENTLY, PRACTICE_SETTINGS
from teaching.rules.ward import Ward

WITH_A_PERSON = "person"


@dataclass(frozen=True, slots=True)
class Standing:
    """One nurse, one skill, one moment. `required` is what a sign-off (or renewing it) still needs; empty when met.

    `held` is the sign-off or withdrawal in force, `until` its end; `counted` are the practices that count now.
    """

    skill: Skill
    state: str
    required: tuple[Reason, ...]
    stands_on: tuple[Reason, ...]
    counted: tuple[Practice, ...]
    needed: int
    held: SignOff | None
    until: datetime | None
    last_taught: datetime | None

    @property
    def met(self) -> bool:
        return not self.required

    @property
    def valid(self) -> bool:
        return self.state in ("signed off", "due soon")


def standing(nurse: Nurse, skill: Skill, policy: Policy, now: datetime, ward: Ward) -> Standing:
    """`ward` only says moments on its own clock. The sign-off that was granted keeps the end it was granted with."""
    held = in_force(nurse.sign_offs, skill.code, now)
    valid = is_valid(held, now)
    counted = counting(nurse, skill, held, now)
    needed = skill.renewing if valid else skill.practices
    required = tuple(_required(nurse, skill, counted, needed, policy))
    return Standing(
        skill=skill,
        state=_state(held, valid, counted, not required, policy, now),
        required=required,
        stands_on=tuple(_stands_on(nurse, held, valid, ward)),
        counted=counted,
        needed=needed,
        held=held,
        until=held.valid_until if held and held.kind == "granted" else None,
        last_taught=(nurse.taught or {}).get(skill.code),
    )


def asked_of(nurse: Nurse, skill: Skill) -> bool:
    """Whether this skill is asked of somebody of this grade, or they have begun it all the same."""
    begun = {each.skill for each in nurse.practices} | {each.skill for each in nurse.sign_offs}
    return nurse.grade in skill.grades or skill.code in begun


def in_force(sign_offs: Iterable[SignOff], skill: str, now: datetime) -> SignOff | None:
    """The newest grant or withdrawal of a skill that has begun."""
    begun = [each for each in sign_offs if each.skill == skill and each.valid_from <= now]
    return max(begun, key=lambda each: each.number, default=None)


def is_valid(held: SignOff | None, now: datetime) -> bool:
    return held is not None and held.kind == "granted" and now <= held.valid_until


def counting(nurse: Nurse, skill: Skill, held: SignOff | None, now: datetime) -> tuple[Practice, ...]:
    """Practices since the last sign-off or withdrawal, oldest first; under an older version they count row by row."""
    return tuple(
        sorted(
            (
                each
                for each in nurse.practices
                if each.skill == skill.code
                and not each.taken_back
                and each.setting in skill.settings
                and each.at <= now
                and (held is None or each.at > held.valid_from)
            ),
            key=lambda each: each.at,
        )
    )


def lasts_until(granted: datetime, policy: Policy, ward: Ward) -> datetime:
    """The last moment of the day, months later, on the ward's clock: 31 Jan and one month is the last of February."""
    return ward.ends(months_later(ward.date(granted), min(policy.sign_off_lasts, policy.sign_off_longest)))


def spoken_day(moment: datetime, ward: Ward) -> str:
    """Such as "13 May 2027"; a year always, since a sign-off outlasts one."""
    day = ward.date(moment)
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def _state(
    held: SignOff | None, valid: bool, counted: Sequence[Practice], met: bool, policy: Policy, now: datetime
) -> str:
    if valid:
        assert held is not None
        return "due soon" if held.valid_until - now <= policy.sign_off_due_soon else "signed off"
    if met:
        return "ready for sign-off"
    if held:
        return "withdrawn" if held.kind == "withdrawn" else "lapsed"
    return "practising" if counted else "not begun"


def _required(
    nurse: Nurse, skill: Skill, counted: Sequence[Practice], needed: int, policy: Policy
) -> Iterable[Reason]:
    if nurse.grade not in skill.grades:
        yield Reason("skill-other-grade")
    occasions = len({each.at for each in counted})
    last = min(skill.at_five, needed)
    if occasions < needed:
        yield Reason("skill-practices", seen=occasions, needed=needed)
    if not counted:
        return
    yield from _rows(skill, counted, last, occasions >= needed, policy)
    with_person = sum(each.setting == WITH_A_PERSON for each in counted[-last:])
    wanted = min(last, policy.practices_with_person)
    if with_person < wanted:
        which = f"{wanted} of the last {last}" if last > 1 else "It"
        yield Reason("skill-with-a-person", which=which, elsewhere=_elsewhere(counted[-last:]))


def _rows(
    skill: Skill, counted: Sequence[Practice], last: int, enough: bool, policy: Policy
) -> Iterable[Reason]:
    """Each row on its own last levels. Once more at 5 is only said once the number of practices is reached.

    Of many below 5 the lowest are named, as many as one session has aims: a longer list is not read.
    """
    unseen: list[str] = []
    new: list[str] = []
    once_more: list[str] = []
    below: list[tuple[str, str]] = []
    for row in skill.rows:
        levels = _levels(row.code, counted)
        if not levels:
            is_new = all(row.code not in each.levels for each in counted)
            (new if is_new else unseen).append(row.title)
        elif levels[-1] != INDEPENDENTLY:
            below.append((levels[-1], f"{row.title} ({levels[-1]} {BONDY[levels[-1]].name.lower()})"))
        elif enough and (len(levels) < last or any(level != INDEPENDENTLY for level in levels[-last:])):
            once_more.append(row.title)
    if below:
        lowest = [said for _, said in sorted(below, key=lambda one: one[0])]
        few = len(lowest) <= policy.aims
        named = "; ".join(lowest[: policy.aims])
        yield Reason("skill-below", rows=named) if few else Reason("skill-below-many", count=len(lowest), rows=named)
    if once_more:
        yield Reason("skill-once-more", rows="; ".join(once_more))
    if unseen:
        yield Reason("skill-unseen", rows="; ".join(unseen))
    if new:
        yield Reason("skill-new-rows", version=skill.version, rows="; ".join(new))


def _levels(row: str, counted: Sequence[Practice]) -> list[str]:
    """The levels seen of one row, oldest first; X left out. At one moment the lower counts as the later."""
    seen = [(each.at, each.levels[row]) for each in counted if each.levels.get(row, NOT_OBSERVED) != NOT_OBSERVED]
    return [level for _, level in sorted(sorted(seen, key=lambda one: one[1], reverse=True), key=lambda one: one[0])]


def _elsewhere(counted: Sequence[Practice]) -> str:
    """Where they were, persons apart."""
    return " and ".join(sorted({PRACTICE_SETTINGS[each.setting] for each in counted if each.setting != WITH_A_PERSON}))


def _stands_on(nurse: Nurse, held: SignOff | None, valid: bool, ward: Ward) -> Iterable[Reason]:
    if held is None:
        return
    until, since = spoken_day(held.valid_until, ward), spoken_day(held.valid_from, ward)
    if held.kind == "withdrawn":
        yield Reason("skill-withdrawn", day=since, by=held.assessor, why=held.reason)
        return
    yield Reason("skill-valid", until=until) if valid else Reason("skill-lapsed", until=until)
    if held.certificate:
        accepted = spoken_day(held.written_at or held.valid_from, ward)
        yield Reason("skill-certificate", certificate=held.certificate, by=held.assessor, day=accepted, since=since)
    else:
        yield Reason("skill-granted", by=held.assessor, day=since)
    if any(each.taken_back and each.key == held.practice for each in nurse.practices):
        yield Reason("skill-basis-gone")


def months_later(day: date, months: int) -> date:
    """The same day of the month, or the month's last where it has no such day; earlier where `months` is below 0."""
    years, month = divmod(day.month - 1 + months, len(MONTHS))
    for back in range(day.day):
        try:
            return date(day.year + years, month + 1, day.day - back)
        except ValueError:
            continue
    raise ValueError(f"no day in month {month + 1}")
