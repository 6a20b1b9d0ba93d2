"""The take-home sheet: one person's own stoma, kit, hands, size, numbers and days. Facts in, plain words out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from teaching.papers.dated import dated
from teaching.papers.readiness_record import Person
from teaching.papers.take_home_facts import SLOT_WORDS, no_number, number_to_ring, where_to_go
from teaching.papers.take_home_next import next_pouch, said_to_the_person, then_every
from teaching.papers.take_home_parts import Part, parts_of
from teaching.papers.take_home_who import who_does_what
from teaching.papers.take_home_words import SENTENCES
from teaching.rules.arrangements import NUMBER_TO_RING
from teaching.rules.assess import Assessment
from teaching.rules.checklist import conditions, holds, kit_at
from teaching.rules.due import named
from teaching.rules.facts import Chart, Stoma
from teaching.rules.huddle import unsettled
from teaching.rules.lines import Policy
from teaching.rules.readiness import Readiness
from teaching.rules.spoken import rung
from teaching.rules.vocabulary import OUTLETS, SIDES, SLOTS, STOMA_KINDS

SIZES = (14, 18)
NOT_SETTLED = "Not all is settled yet. Ask your nurse before you go home."
TEAM_FIRST = "Your team's word comes first."


@dataclass(frozen=True, slots=True)
class Mine:
    """What stands on top of one stoma: what it is, its pouch, the next change, and who does what."""

    name: str
    pouch: str
    next: str
    then: str
    tasks: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Blocked:
    """Why no sheet can be printed yet. `slot` or `arrangement` names what is to be filled, else ""."""

    words: str
    slot: str = ""
    arrangement: str = ""


@dataclass(frozen=True, slots=True)
class TakeHomeSheet:
    """Everything the sheet says. `size` of print in pt; `language` in English; `phones` (label, number, hours).

    `not_settled` where a caution is not, else "": the sign itself is in a nurse's words and stands on their papers.
    """

    person: Person
    stomas: tuple[Mine, ...]
    not_settled: str
    phone: str
    go_to: str
    phones: tuple[tuple[str, str, str], ...]
    parts: tuple[Part, ...]
    size: int
    language: str
    made_by: str
    made_at: str
    policy: str

    @property
    def plain(self) -> dict[str, Any]:
        return {"headline": self.headline, **asdict(self)}

    @property
    def headline(self) -> str:
        return f"{self.size} point, in {self.language}. Made by {self.made_by}, {self.made_at}."


def blocked(chart: Chart, now: datetime, slots: Mapping[str, str]) -> Iterator[Blocked]:
    """What must be filled before a sheet may be printed; nothing is ever filled in by us."""
    if not chart.stomas:
        yield Blocked("No stoma is written down yet.")
    for stoma in chart.stomas:
        if kit_at(chart, stoma.key, now) is None:
            yield Blocked(f"No kit is written down for the {named(chart, stoma)}.")
    if said := no_number(chart, now):
        yield Blocked(said, arrangement=NUMBER_TO_RING)
    for code in wanted_slots(chart):
        if not slots.get(code):
            yield Blocked(f"Not filled in for this unit: {SLOTS[code]}.", slot=code)


def wanted_slots(chart: Chart) -> list[str]:
    """The slots that a sentence of these stomas leans on."""
    kinds = {kind for stoma in chart.stomas for kind in _kinds(stoma)}
    found = []
    for code, word in SLOT_WORDS.items():
        leaning = [one for one in SENTENCES if f"{{{word}}}" in one.words]
        if any(holds(conditions(one.applies), frozenset(kinds)) for one in leaning):
            found.append(code)
    return found


def _kinds(stoma: Stoma) -> tuple[str, ...]:
    return ("colostomy", "urostomy") if stoma.kind == "wet-colostomy" else (stoma.kind,)


def take_home(
    chart: Chart,
    assessment: Assessment,
    readiness: Readiness,
    policy: Policy,
    now: datetime,
    *,
    person: Person,
    slots: Mapping[str, str],
    phones: Sequence[tuple[str, str, str]],
    size: int,
    made_by: str,
) -> TakeHomeSheet:
    """The sheet as it stands at `now` (UTC). Ask `blocked` first: a sheet with a hole in it is not handed out."""
    return TakeHomeSheet(
        person=person,
        stomas=tuple(_mine(chart, assessment, readiness, stoma, now) for stoma in chart.stomas),
        not_settled=NOT_SETTLED if unsettled(chart.cautions) else "",
        phone=number_to_ring(chart, now),
        go_to=where_to_go(slots),
        phones=rung(phones),
        parts=parts_of(chart, policy, now, slots, readiness.leaving),
        size=size,
        language="English",
        made_by=made_by,
        made_at=dated(now, chart.ward),
        policy=policy.version,
    )


def _mine(chart: Chart, assessment: Assessment, readiness: Readiness, stoma: Stoma, now: datetime) -> Mine:
    kit = kit_at(chart, stoma.key, now)
    assert kit is not None
    kind = STOMA_KINDS[stoma.kind]
    side = f", on the {SIDES[stoma.side]}" if stoma.side in ("right", "left") else ""
    parts = "one part" if kit.pieces == "one" else "two parts"
    outlet = OUTLETS[kit.outlet].removesuffix(" outlet") if kit.outlet and kit.closure != "closed" else ""
    shut = f", shut by a {outlet}" if outlet else ""
    due = next((one.due for one in readiness.stomas if one.stoma == stoma.key), None) or _due(assessment, stoma, now)
    following = next_pouch(chart, stoma, due, readiness.leaving or now)
    return Mine(
        name=f"My stoma is {_article(kind)} {kind}{side}.",
        pouch=f"My pouch has {parts}{shut}.",
        next=said_to_the_person(chart, following),
        then=then_every(kit.interval_hours),
        tasks=tuple(who_does_what(chart, assessment, stoma, now, nurse_comes=following.visit is not None)),
    )


def _article(word: str) -> str:
    return "an" if word[0] in "aeio" else "a"


def _due(assessment: Assessment, stoma: Stoma, now: datetime) -> datetime | None:
    return next((one.due for one in assessment.changes if one.stoma == stoma.key and one.due and one.due > now), None)
