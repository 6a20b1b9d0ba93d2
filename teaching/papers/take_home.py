"""The take-home sheet: one person's own stoma, kit, hands, size, numbers and days. Facts in, plain words out."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from teaching.papers.dated import dated, weekday
from teaching.papers.readiness_record import Person
from teaching.papers.take_home_comes import who_comes
from teaching.papers.take_home_facts import SLOT_WORDS, number_to_ring, of_stay, of_stoma
from teaching.papers.take_home_who import BY_HAND, who_does_what
from teaching.papers.take_home_words import COMES, EMPTY, KIT, OF_EACH_STOMA, SENTENCES, TITLES
from teaching.rules.arrangements import NUMBER_TO_RING, SUPPLIES
from teaching.rules.assess import Assessment
from teaching.rules.checklist import conditions, holds, kit_at
from teaching.rules.facts import Chart, Kit, Stoma
from teaching.rules.in_place import newest
from teaching.rules.lines import Policy
from teaching.rules.readiness import Readiness
from teaching.rules.vocabulary import (
    CLOSURES,
    KIT_ITEMS,
    OPENINGS,
    OUTLETS,
    PIECES,
    SHAPES,
    SIDES,
    SLOTS,
    STOMA_KINDS,
)

SIZES = (14, 18)
TEAM_FIRST = "Your team's word comes first."
GO_TO = "If no one answers, go to the nearest emergency room."


@dataclass(frozen=True, slots=True)
class Line:
    words: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    key: str
    title: str
    lines: tuple[Line, ...]


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
    """Everything the sheet says. `size` of print in pt; `language` in English; `phones` (label, number, hours)."""

    person: Person
    stomas: tuple[Mine, ...]
    phone: str
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
            yield Blocked(f"No kit is written down for the {stoma.label} stoma.")
    if not number_to_ring(chart, now):
        yield Blocked("The number to ring, day and night, is not arranged yet.", arrangement=NUMBER_TO_RING)
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
    stay = of_stay(chart, policy, now, slots)
    known = [(stoma, *of_stoma(chart, stoma, policy, now, stay)) for stoma in chart.stomas]
    parts = []
    for key, title in TITLES.items():
        if key in OF_EACH_STOMA:
            parts += [_part(key, _titled(chart, key, stoma, present), [(stoma, present, told)], chart)
                      for stoma, present, told in known]  # fmt: skip
        else:
            parts.append(_part(key, title, known, chart, before=_before(chart, key, now, readiness.leaving)))
    return TakeHomeSheet(
        person=person,
        stomas=tuple(_mine(chart, assessment, readiness, stoma, now) for stoma in chart.stomas),
        phone=number_to_ring(chart, now),
        phones=tuple(phones),
        parts=tuple(part for part in parts if part.lines),
        size=size,
        language="English",
        made_by=made_by,
        made_at=dated(now, chart.ward),
        policy=policy.version,
    )


def _titled(chart: Chart, key: str, stoma: Stoma, present: frozenset[str]) -> str:
    title = "To swap the pouch" if key == EMPTY and "closed" in present else TITLES[key]
    return f"{title}: {_which(stoma)}" if len(chart.stomas) > 1 else title


def _which(stoma: Stoma) -> str:
    return f"{stoma.label} stoma"


def _part(key: str, title: str, known: Sequence[tuple], chart: Chart, before: Iterable[Line] = ()) -> Part:
    """The sentences of a part; one that holds for some of the stomas alone names them."""
    lines = list(before)
    for sentence in (one for one in SENTENCES if one.part == key):
        when = conditions(sentence.applies)
        said: dict[str, list[Stoma]] = {}
        for stoma, present, told in known:
            words = _filled(sentence.words, told) if holds(when, present) else ""
            if words:
                said.setdefault(words, []).append(stoma)
        for words, stomas in said.items():
            whose = "" if len(stomas) == len(known) else f"{' and '.join(map(_which, stomas)).capitalize()}: "
            lines.append(Line(f"{whose}{words}", sentence.strong))
    return Part(key, title, tuple(lines))


def _filled(words: str, told: Mapping[str, str]) -> str:
    """The sentence with its facts; "" where one of them is not known."""
    try:
        return words.format(**told)
    except KeyError:
        return ""


def _before(chart: Chart, key: str, now: datetime, leaving: datetime | None) -> Iterator[Line]:
    if key == COMES:
        yield from (Line(words) for words in who_comes(chart, now, leaving))
    if key == KIT:
        for stoma in chart.stomas:
            kit = kit_at(chart, stoma.key, now)
            whose = f"{_which(stoma).capitalize()}: " if len(chart.stomas) > 1 else ""
            if kit:
                yield Line(f"{whose}{_kit(kit)}")
        supplies = newest(chart, SUPPLIES, now)
        for name, before in (("codes", "Codes"), ("size", "Size"), ("supplier", "From")):
            if supplies and supplies.detail(name):
                yield Line(f"{before}: {supplies.detail(name)}.")


def _kit(kit: Kit) -> str:
    """Such as "Two-piece, flat, cut to fit, strip outlet. With: powder."."""
    outlet = OUTLETS[kit.outlet] if kit.outlet and kit.closure != "closed" else CLOSURES[kit.closure]
    said = f"{PIECES[kit.pieces].capitalize()}, {SHAPES[kit.shape]}, {OPENINGS[kit.opening]}, {outlet}."
    items = ", ".join(words for item, words in KIT_ITEMS.items() if item in kit.items)
    return f"{said} With: {items}." if items else said


def _mine(chart: Chart, assessment: Assessment, readiness: Readiness, stoma: Stoma, now: datetime) -> Mine:
    kit = kit_at(chart, stoma.key, now)
    assert kit is not None
    kind = STOMA_KINDS[stoma.kind]
    side = f", on the {SIDES[stoma.side]}" if stoma.side in ("right", "left") else ""
    parts = "one part" if kit.pieces == "one" else "two parts"
    outlet = OUTLETS[kit.outlet].removesuffix(" outlet") if kit.outlet and kit.closure != "closed" else ""
    outlet = OUTLETS[kit.outlet].removesuffix(" outlet") if kit.outlet and kit.closure != "closed" else ""
    shut = f", shut by a {outlet}" if outlet else ""
    due = next((one.due for one in readiness.stomas if one.stoma == stoma.key), None) or _due(assessment, stoma, now)
    return Mine(
        name=f"My stoma is {_article(kind)} {kind}{side}.",
        pouch=f"My pouch has {parts}{shut}.",
        next=f"{weekday(chart.ward.date(due))}, {_time_of_day(chart, due)}" if due else BY_HAND,
        then=_then(kit.interval_hours),
        tasks=tuple(who_does_what(chart, assessment, stoma, now, readiness.leaving)),
    )


def _article(word: str) -> str:
    return "an" if word[0] in "aeio" else "a"


def _due(assessment: Assessment, stoma: Stoma, now: datetime) -> datetime | None:
    return next((one.due for one in assessment.changes if one.stoma == stoma.key and one.due and one.due > now), None)


def _time_of_day(chart: Chart, at: datetime) -> str:
    hour = chart.ward.local(at).hour
    return "in the morning" if hour < 12 else "in the afternoon" if hour < 18 else "in the evening"


def _then(interval: int | None) -> str:
    """Such as "Then every 3 days."; 84 hours is "every 3 to 4 days"."""
    if interval is None:
        return ""
    days, over = divmod(interval, 24)
    said = f"{days} to {days + 1} days" if over and days else f"{days} days" if days > 1 else "day"
    return f"Then every {said}."
