"""What each learner holds of each stoma, told by part: a full pouch, the night, a change, looking, what is known.

Each part is judged twice: as the record shows it, and with every missing fact taken as good (R11).
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.facts import Chart, Rating
from teaching.rules.occasions import by_registered
from teaching.rules.reopening import ATTEMPTED
from teaching.rules.showings import ALONE
from teaching.rules.standing import MISSING, Standing
from teaching.rules.topics import OWN_WORDS, TALK

ALONE_HERE, SET_OUT, NO = "alone", "set out", ""  # with someone to set out and clear up; not at all
PROCEDURE_PARTS = {"emptying": "pouch", "swap": "pouch", "urine": "pouch", "night": "night"}
TAUGHT = frozenset((*ATTEMPTED, *TALK))

Level = Callable[[Standing], str]


@dataclass(frozen=True, slots=True)
class Skill:
    """What one learner holds of one stoma. `pouch`, `night` and `leak` are a level of help for all rows of it at once.

    `change` and `looks` tell each row of a change, looking apart; `topics` are those explained.
    `knows`: every topic of the hard minimum is explained (R4).
    """

    pouch: str
    night: str
    leak: str
    change: Mapping[str, str]
    looks: Mapping[str, str]
    knows: bool
    topics: frozenset[str]


def part_of(standing: Standing) -> str:
    """The part of readiness that a row belongs to; "" for one that is not essential."""
    item = standing.row.item
    if not standing.row.essential:
        return ""
    if item.topic:
        return "know" if item.hard_minimum else "topics"
    if item.procedure == "change":
        return "look" if item.looking else "change"
    return PROCEDURE_PARTS.get(item.procedure, "")


def by_part(standings: Iterable[Standing]) -> dict[tuple[str, str], dict[str, list[Standing]]]:
    """The essential rows of each (stoma, learner), by part."""
    found: dict[tuple[str, str], dict[str, list[Standing]]] = defaultdict(lambda: defaultdict(list))
    for one in standings:
        part = part_of(one)
        if part:
            found[one.stoma, one.learner][part].append(one)
    return found


def skill(rows: Mapping[str, list[Standing]], level: Level, unknown: str) -> Skill:
    """What these rows come to. `unknown` is the level where no row says how a pouch is emptied or changed."""
    told = {part: [level(one) for one in found] for part, found in rows.items()}
    return Skill(
        pouch=_least(told.get("pouch", [unknown])),
        night=_least(told.get("night", ())),
        leak=_least(told.get("change", [unknown])),
        change={one.code: held for one, held in zip(rows.get("change", ()), told.get("change", ()), strict=True)},
        looks={
            one.code: ALONE_HERE if one.may_look else held
            for one, held in zip(rows.get("look", ()), told.get("look", ()), strict=True)
        },
        knows=NO not in told.get("know", ()),
        topics=frozenset(
            one.code for one, held in zip(rows.get("topics", ()), told.get("topics", ()), strict=True) if held
        ),
    )


def _least(levels: Iterable[str]) -> str:
    found = set(levels)
    return NO if NO in found else SET_OUT if SET_OUT in found else ALONE_HERE


def as_shown(one: Standing) -> str:
    return ALONE_HERE if one.held else SET_OUT if one.helper_only else NO


def at_best(chart: Chart, now: datetime, taught_here: bool) -> Level:
    """As shown, with what is not known taken as good: out of date, never more than "nothing to do" or "too unwell",
    reported as done alone but not seen here; and everything, where nobody taught here at all.
    """
    told = {
        (rating.stoma, rating.code, rating.learner) for rating in chart.ratings
        if rating.reported and rating.at <= now and (rating.answer in ALONE or rating.answer == OWN_WORDS)
    }

    def level(one: Standing) -> str:
        if one.held or not taught_here or not_known(one):
            return ALONE_HERE
        if one.last is None and (one.stoma, one.code, one.learner) in told:
            return ALONE_HERE
        return as_shown(one)

    return level


def not_known(one: Standing) -> bool:
    return one.lack == MISSING


def newest_teaching(chart: Chart, now: datetime) -> datetime | None:
    """When a step was last shown or a topic last talked of here. Reported entries and those not rated do not count."""
    return max(
        (rating.at for seen in chart.by_row.values() if (rating := _last_taught(seen, now))), default=None
    )


def _last_taught(seen: tuple[Rating, ...], now: datetime) -> Rating | None:
    return next((one for one in reversed(seen) if one.answer in TAUGHT and one.at <= now), None)


def newest_asked(chart: Chart, now: datetime) -> datetime | None:
    """When a registered nurse last tapped "still manages alone"."""
    return max((tap.at for tap in chart.rechecks if tap.at <= now and by_registered(tap.witness)), default=None)
