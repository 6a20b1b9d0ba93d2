"""One nurse: each skill with its two clocks, what is still required, what was seen; confidence kept apart."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime

from django.urls import reverse

from teaching.record.staff import SKILLS
from teaching.rules.competence import Standing, asked_of, in_force, is_valid, spoken_day, standing
from teaching.rules.competence_facts import NOT_OBSERVED, Nurse, Practice, Skill
from teaching.rules.huddle import spoken_date, when
from teaching.rules.lines import Policy
from teaching.rules.reasons import words
from teaching.rules.vocabulary import BONDY, GRADES, INDEPENDENTLY, PRACTICE_SETTINGS
from teaching.rules.ward import Ward

ROWS_SHOWN = 5  # of the newest practices beside each row; older ones stand in the list


@dataclass(frozen=True, slots=True)
class Viewer:
    """Who looks: their facts, what they may do on this unit, and whether the page is their own."""

    nurse: Nurse
    own: bool
    observes: bool = False
    withdraws: bool = False
    accepts: bool = False
    sees_shift: bool = False

    def holds(self, skill: str, now: datetime) -> bool:
        return is_valid(in_force(self.nurse.sign_offs, skill, now), now)


@dataclass(frozen=True, slots=True)
class SeenRow:
    title: str
    levels: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PracticeLine:
    said: str
    words: str
    taken_back: bool
    take_back: str


@dataclass(frozen=True, slots=True)
class Ask:
    """`said` is what was asked, "" for nothing; `acts` as (address, words)."""

    said: str = ""
    acts: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class SkillPart:
    """One skill on the page. `rows` with their newest levels, `practices` newest first."""

    code: str
    title: str
    state: str
    clocks: tuple[str, ...]
    stands_on: tuple[str, ...]
    required_head: str
    required: tuple[str, ...]
    rows: tuple[SeenRow, ...]
    row_heads: tuple[str, ...]
    practices: tuple[PracticeLine, ...]
    acts: tuple[tuple[str, str], ...]
    ask: Ask = field(default_factory=Ask)


def practice_said(practice: Practice, ward: Ward) -> str:
    """Such as "19 Nov 2026, with a person, seen by a nurse: 10 of 11 rows at 5, 0 not observed." """
    seen = [level for level in practice.levels.values() if level != NOT_OBSERVED]
    at_five = sum(level == INDEPENDENTLY for level in seen)
    unseen = len(practice.levels) - len(seen)
    return (
        f"{spoken_day(practice.at, ward)}, {PRACTICE_SETTINGS[practice.setting]}, seen by {practice.assessor}: "
        f"{at_five} of {len(seen)} rows at 5{f', {unseen} not observed' if unseen else ''}."
    )


class NursePage:
    def __init__(
        self,
        unit,
        uid,
        nurse: Nurse,
        skills: Sequence[Skill],
        viewer: Viewer,
        asks,
        policy: Policy,
        ward: Ward,
        now: datetime,
        alike: Sequence[str] = (),
    ):
        self.unit, self.uid, self.nurse, self.viewer, self.ward, self.now = unit, uid, nurse, viewer, ward, now
        self.asks = {ask.skill: ask for ask in asks}
        self.alike = alike
        self.name, self.grade, self.own = nurse.name, GRADES[nurse.grade], viewer.own
        asked = [skill for skill in skills if asked_of(nurse, skill)]
        self.skills = [self._part(standing(nurse, skill, policy, now, ward)) for skill in asked]
        self.levels = [(code, level.name, level.words) for code, level in BONDY.items()]

    @property
    def confidence(self) -> list[tuple[str, str, str]]:
        """(skill, what was said, address to say it): never beside what was seen."""
        said = {each.skill: each for each in self.nurse.self_ratings}
        return [
            (
                SKILLS[part.code].capitalize(),
                f"{said[part.code].confidence} of 6, said {spoken_day(said[part.code].at, self.ward)}"
                if part.code in said
                else "not said yet",
                self._own("rate-oneself", part.code) if self.own else "",
            )
            for part in self.skills
        ]

    def _part(self, one: Standing) -> SkillPart:
        newest = one.counted[-ROWS_SHOWN:]
        return SkillPart(
            code=one.skill.code,
            title=one.skill.title,
            state=one.state,
            clocks=tuple(self._clocks(one)),
            stands_on=tuple(words(reason) for reason in one.stands_on if reason.code != "skill-valid"),
            required_head="To renew it" if one.valid else "Still required",
            required=self._required(one),
            rows=tuple(
                SeenRow(row.title, tuple(each.levels.get(row.code, "") for each in newest)) for row in one.skill.rows
            ),
            row_heads=tuple(self._short(each) for each in newest),
            practices=tuple(self._line(each) for each in self._practices(one.skill)),
            acts=tuple(self._acts(one)),
            ask=self._ask(one),
        )

    def _clocks(self, one: Standing):
        valid_until = one.until if one.valid else None
        yield f"Signed off until {spoken_day(valid_until, self.ward)}" if valid_until else "Not signed off now"
        done = "done" if one.skill.code == "change" else "taught"
        yield f"last {done} {spoken_day(one.last_taught, self.ward)}" if one.last_taught else f"not {done} here yet"

    def _required(self, one: Standing) -> tuple[str, ...]:
        if one.met:
            return ("All that is required was seen. A holder may sign it.",)
        return tuple(words(reason) for reason in one.required)

    def _practices(self, skill: Skill) -> list[Practice]:
        own = [each for each in self.nurse.practices if each.skill == skill.code]
        return sorted(own, key=lambda each: each.at, reverse=True)

    def _short(self, practice: Practice) -> str:
        return f"{spoken_date(self.ward.date(practice.at))}, {practice.setting}"

    def _line(self, practice: Practice) -> PracticeLine:
        mine = practice.assessor_key == self.viewer.nurse.key and not practice.taken_back
        address = reverse("take-back-practice", args=[practice.key]) if mine else ""
        return PracticeLine(practice_said(practice, self.ward), practice.words, practice.taken_back, address)

    def _acts(self, one: Standing):
        skill, viewer = one.skill.code, self.viewer
        if not viewer.own and viewer.observes and viewer.holds(skill, self.now):
            if one.met:
                yield self._named("sign-off", skill), "Renew the sign-off" if one.valid else "Sign off"
            yield self._named("record-practice", skill), "Record a practice"
        if not viewer.own and viewer.accepts:
            yield self._named("accept-certificate", skill), "Accept a certificate from elsewhere"
        if not viewer.own and viewer.withdraws and one.valid:
            yield self._named("withdraw-sign-off", skill), "Withdraw the sign-off"

    def _ask(self, one: Standing) -> Ask:
        asked = self.asks.get(one.skill.code)
        if not self.own:
            return Ask(self._asked(asked) if asked else "")
        ask, back = self._own("ask-to-be-observed", one.skill.code), self._own("take-back-ask", one.skill.code)
        if asked is None:
            return Ask("", ((ask, "Ask to be observed"),))
        return Ask(self._asked(asked), ((ask, "Ask for another time"), (back, "Take it back")))

    def _asked(self, asked) -> str:
        """Bed and time only for those who may see the shift."""
        who = "You asked" if self.own else "Asks"
        if not asked.paired_at:
            return f"{who} to be observed, at any time."
        if not self.viewer.sees_shift:
            return f"{who} to be observed, paired with a due change."
        if asked.paired_at < self.now:
            return f"{who} to be observed; the change it was paired with is past."
        said = f"{who} to be observed at the change {when(asked.paired_at, self.ward, self.now)}, bed {asked.bed}."
        if not asked.paired_by:
            return said
        return f"{said} {asked.paired_by} chose this change, {when(asked.recorded_at, self.ward, self.now)}."

    def _named(self, name: str, skill: str) -> str:
        return reverse(name, args=[self.unit.uid, self.uid, skill])

    def _own(self, name: str, skill: str) -> str:
        return reverse(name, args=[self.unit.uid, skill])
