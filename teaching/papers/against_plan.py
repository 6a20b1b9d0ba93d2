"""Leaving against the plan: what is open, what goes along, whom to ring, who was told. No argument and no blame."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime
from typing import Any

from teaching.papers.dated import caution_said, dated
from teaching.papers.readiness_record import CautionSaid, Person, Signature
from teaching.papers.take_home_facts import SLOT_WORDS, counted, where_to_go
from teaching.papers.take_home_next import (
    NextPouch,
    next_at_the_door,
    said_for_the_record,
    said_to_the_person,
    then_every,
)
from teaching.papers.take_home_parts import Part, parts_of
from teaching.papers.take_home_words import EMPTY, LEAK, NOW, TODAY
from teaching.rules.assess import assess
from teaching.rules.checklist import kit_at
from teaching.rules.due import named
from teaching.rules.facts import Chart
from teaching.rules.fit import kit_against_plan
from teaching.rules.huddle import unsettled
from teaching.rules.lines import Policy
from teaching.rules.readiness import Readiness, ready
from teaching.rules.reasons import words
from teaching.rules.spoken import kit_words, stoma_name

SHORT = frozenset((NOW, TODAY, EMPTY, LEAK))
MEANING = "I gave this sheet and this kit, and told whom it names. The person decides for themselves."
WELCOME = "You can come back, or ring, at any time. We are glad to help."
# Where the unit has filled in no figure, the sign itself is enough to ring.
WITHOUT_FIGURE = {
    "press-minutes": "Blood comes from inside the stoma, or it does not stop.",
    "hours-without-urine": "No urine comes.",
}


@dataclass(frozen=True, slots=True)
class NextSaid:
    """One stoma's next change as the person reads it: which stoma, "" where there is one, when, and then how often."""

    which: str
    when: str
    then: str


@dataclass(frozen=True, slots=True)
class AgainstPlan:
    """Everything the sheet says. `lacking` and `changes` in sentences, `cautions` all that are not settled; `next`
    and `parts` are the person's sheet. `call_by` and `call_due` (UTC, ISO 8601) set the call that is then owed.
    """

    person: Person
    leaving: str
    planned: str
    cautions: tuple[CautionSaid, ...]
    lacking: tuple[str, ...]
    changes: tuple[str, ...]
    stomas: tuple[str, ...]
    told: str
    kit: str
    number: str
    call: str
    call_by: str
    call_due: str
    go_to: str
    next: tuple[NextSaid, ...]
    parts: tuple[Part, ...]
    policy: str
    signature: Signature

    @property
    def plain(self) -> dict[str, Any]:
        return {"headline": self.headline, **asdict(self)}

    @property
    def headline(self) -> str:
        return f"{self.leaving} Signed by {self.signature.name}, {self.signature.role}, {self.signature.at}."


def leaving_now(chart: Chart, policy: Policy, now: datetime) -> Readiness:
    """What is open for somebody who goes home at this moment, whatever day and place had been planned."""
    here = replace(chart, planned_at=now, goes_to="home")
    return ready(here, assess(here, policy, now), policy, now)


def changes_said(chart: Chart, readiness: Readiness) -> tuple[str, ...]:
    """When each stoma's pouch is changed next, as judged for leaving then."""
    return tuple(said_for_the_record(chart, one) for one in _next(chart, readiness))


def _next(chart: Chart, readiness: Readiness) -> Iterator[NextPouch]:
    dues = {one.stoma: one.due for one in readiness.stomas}
    return (next_at_the_door(chart, stoma, dues[stoma.key], readiness.at) for stoma in chart.stomas)


def lacking_said(readiness: Readiness) -> tuple[str, ...]:
    """What is wanting and what is not known, a sentence each."""
    return tuple(words(gap.reason) for gap in (*readiness.gaps, *readiness.missing))


def against_plan(
    chart: Chart,
    readiness: Readiness,
    policy: Policy,
    now: datetime,
    *,
    person: Person,
    slots: Mapping[str, str],
    told: str,
    told_at: datetime,
    kit_days: int,
    number: str,
    call_by: str,
    call_at: datetime,
    signature: Signature,
) -> AgainstPlan:
    """The sheet for somebody who leaves at `now` (UTC); `readiness` as judged by `leaving_now`."""
    ward = chart.ward
    planned = f"Planned was {dated(chart.planned_at, ward)}." if chart.planned_at else "No day of leaving was planned."
    wanted = kit_against_plan(policy)
    enough = "" if kit_days >= wanted else f" This is less than {wanted} days: more must be sent in time."
    return AgainstPlan(
        person=person,
        leaving=f"Leaving {dated(now, ward)}.",
        planned=planned,
        cautions=tuple(CautionSaid(*caution_said(one, ward, now)) for one in unsettled(chart.cautions)),
        lacking=lacking_said(readiness),
        changes=changes_said(chart, readiness),
        stomas=tuple(_stomas(chart, now)),
        told=f"{told}, {dated(told_at, ward)}",
        kit=f"{counted(kit_days, 'day')}.{enough}",
        number=number,
        call=f"{call_by}, {dated(call_at, ward)}",
        call_by=call_by,
        call_due=call_at.astimezone(UTC).isoformat(),
        go_to=where_to_go(slots),
        next=tuple(_said_next(chart, one, now) for one in _next(chart, readiness)),
        parts=parts_of(chart, policy, now, slots, None, SHORT, _plain_words(slots, number)),
        policy=policy.version,
        signature=signature,
    )


def _said_next(chart: Chart, one: NextPouch, now: datetime) -> NextSaid:
    kit = kit_at(chart, one.stoma.key, now)
    which = named(chart, one.stoma).capitalize() if len(chart.stomas) > 1 else ""
    return NextSaid(which, said_to_the_person(chart, one), then_every(kit.interval_hours if kit else None))


def _stomas(chart: Chart, now: datetime) -> Iterable[str]:
    for stoma in chart.stomas:
        kit = kit_at(chart, stoma.key, now)
        yield f"{stoma_name(stoma)}: {kit_words(kit) if kit else 'no pouch is written down'}".capitalize()


def _plain_words(slots: Mapping[str, str], number: str) -> Mapping[str, str]:
    """By the word that nobody has filled in: the sentence to say in its place."""
    found = {word: WITHOUT_FIGURE[code] for code, word in SLOT_WORDS.items() if not slots.get(code)}
    return found | {"leak_phone": f"If you can not change it, hold a pad on it and ring {number}."}
