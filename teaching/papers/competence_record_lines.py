"""What was seen and signed of one nurse in one skill, line by line, each with the requirement in force then."""

from dataclasses import dataclass
from datetime import datetime

from teaching.rules.competence import spoken_day
from teaching.rules.competence_facts import NOT_OBSERVED, Nurse, Practice, SignOff, Skill
from teaching.rules.skill_history import History, Requirement, in_span, renewed, required_of, rested_on
from teaching.rules.vocabulary import BONDY, INDEPENDENTLY, PRACTICE_SETTINGS
from teaching.rules.ward import Ward

GONE = "taken back since"
Span = tuple[datetime, datetime]


@dataclass(frozen=True, slots=True)
class PracticeLine:
    """`required` names a line of the requirements; `taken_back`: entered in error, it does not count."""

    day: str
    where: str
    by: str
    levels: str
    required: str
    taken_back: bool


@dataclass(frozen=True, slots=True)
class SignOffLine:
    what: str
    day: str
    until: str
    by: str
    rests_on: str
    required: str


class Requirements:
    """Each requirement once, numbered as it is first named: a table names it, the list says it."""

    def __init__(self, ward: Ward):
        self.ward = ward
        self._numbers: dict[Requirement, str] = {}

    def name(self, requirement: Requirement) -> str:
        return self._numbers.setdefault(requirement, f"R{len(self._numbers) + 1}")

    @property
    def lines(self) -> tuple[tuple[str, str], ...]:
        return tuple((name, self._said(each)) for each, name in self._numbers.items())

    def _said(self, one: Requirement) -> str:
        if one.published is None:
            return (
                f"{one.title}, by a certificate from elsewhere that a unit lead accepts by name; policy {one.policy}: "
                f"never over {one.longest} months."
            )
        practices = "1 observed practice" if one.practices == 1 else f"{one.practices} observed practices"
        last = "the last" if one.at_five == 1 else f"the last {one.at_five}"
        renews = "1 more renews it" if one.renewing == 1 else f"{one.renewing} more renew it"
        return (
            f"{one.title}, version {one.version}, published {spoken_day(one.published, self.ward)}; policy "
            f"{one.policy}: {practices}, each row at 5 (independent) in {last}, at least {one.with_person} of these "
            f"with a person; while it runs, {renews}. Lasts {one.lasts} months, never over {one.longest}."
        )


def practice_lines(
    nurse: Nurse, skill: Skill, history: History, names: Requirements, ward: Ward
) -> tuple[PracticeLine, ...]:
    """Every practice, newest first, those taken back too. The assessor's free words stay on the nurse's own page."""
    own = sorted((each for each in nurse.practices if each.skill == skill.code), key=lambda each: each.at, reverse=True)
    return tuple(
        PracticeLine(
            day=spoken_day(each.at, ward),
            where=PRACTICE_SETTINGS[each.setting],
            by=each.assessor,
            levels=levels_said(each, history.version(each.skill, each.version).skill),
            required=names.name(required_of(history, each.skill, each.version, skill.title, each.at)),
            taken_back=each.taken_back,
        )
        for each in own
    )


def sign_off_lines(
    nurse: Nurse, skill: Skill, history: History, names: Requirements, ward: Ward, span: Span | None = None
) -> tuple[SignOffLine, ...]:
    """Every sign-off, certificate and withdrawal, newest first; with a span (first and last moment), those in it."""
    own = [each for each in nurse.sign_offs if each.skill == skill.code]
    own = [each for each in own if span is None or in_span(nurse, each, *span)]
    return tuple(_sign_off(nurse, each, skill, history, names, ward) for each in reversed(own))


def _sign_off(
    nurse: Nurse, one: SignOff, skill: Skill, history: History, names: Requirements, ward: Ward
) -> SignOffLine:
    day = spoken_day(one.valid_from, ward)
    if one.kind == "withdrawn":
        return SignOffLine("withdrawn", day, "", one.assessor, f"why: {one.reason}", "")
    version = history.signed_by.get((nurse.key, one.skill, one.number))
    judged = history.version(one.skill, version).skill if version else skill
    required = names.name(required_of(history, one.skill, version, skill.title, one.valid_from))
    until = spoken_day(one.valid_until, ward)
    if one.certificate:
        accepted = f"{one.certificate}; accepted {spoken_day(one.written_at or one.valid_from, ward)}"
        return SignOffLine("certificate from elsewhere", day, until, one.assessor, accepted, required)
    seen = rested_on(nurse, judged, one, history)
    what = "renewed" if renewed(nurse, one) else "signed off"
    return SignOffLine(what, day, until, one.assessor, seen_said(seen, ward), required)


def seen_said(practices: tuple[Practice, ...], ward: Ward) -> str:
    """Such as "4 May 2026, with a person, a nurse; 7 May 2026, in simulation, a nurse"."""
    return "; ".join(
        f"{spoken_day(each.at, ward)}, {PRACTICE_SETTINGS[each.setting]}, {each.assessor}"
        + (f" ({GONE})" if each.taken_back else "")
        for each in practices
    )


def levels_said(practice: Practice, skill: Skill) -> str:
    """Such as "5 in 9 of 11 rows. 4: Cleans with warm water and dries well": what was not at 5 is named row by row.

    One level in every row is said once.
    """
    titles = {row.code: row.title for row in skill.rows}
    by_level = {level: [titles[row] for row, told in practice.levels.items() if told == level] for level in BONDY}
    for level, rows in by_level.items():
        if len(rows) == len(titles):
            return f"{level} in all {len(rows)} rows"
    at_five = by_level.pop(INDEPENDENTLY)
    parts = [f"{INDEPENDENTLY} in {len(at_five)} of {len(titles)} rows"] if at_five else []
    unseen = by_level.pop(NOT_OBSERVED)
    parts += [f"{level}: {' / '.join(rows)}" for level, rows in by_level.items() if rows]
    return ". ".join([*parts, f"{NOT_OBSERVED}, not observed: {' / '.join(unseen)}"] if unseen else parts)
