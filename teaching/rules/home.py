"""R2 to R6 and R9, part by part, for one stoma: what is bare when these people, and these alone, are leaned on."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from teaching.rules.changes import change_visits, lacking_at_change
from teaching.rules.hands import Hands, Situation, covered
from teaching.rules.in_place import accepted

PARTS = {
    "pouch": "a full pouch",
    "night": "night drainage",
    "leak": "a leak",
    "change": "the first change",
    "look": "looking at stoma and skin",
    "topics": "what must be explained",
    "wear": "a pouch that leaks early",
}


@dataclass(frozen=True, slots=True)
class Lean:
    """Whom a result leans on. The order is the order of results: each may lean on all that the one before may."""

    person: bool = False
    helpers: bool = False
    nursing: bool = False


PERSON = Lean(person=True)
HELPERS = Lean(helpers=True)
TOGETHER = Lean(person=True, helpers=True)
NURSING = Lean(person=True, helpers=True, nursing=True)


def bare_parts(
    situation: Situation, stoma: str, lean: Lean, best: bool = False, knowing: bool = False, capped: bool = False
) -> tuple[str, ...]:
    """The parts that are not covered, of PARTS and in its order.

    `best`: every missing fact taken as good (R11). `knowing`: as if all had explained what they must know (R4).
    """
    hands = situation.hands(stoma, lean.person, lean.helpers, best)
    if knowing:
        hands = tuple(replace(hand, skill=replace(hand.skill, knows=True)) for hand in hands)
    bare = lacking_at_change(situation, stoma, hands, lean.nursing, best)
    for part in ("pouch", "night", "leak"):
        if wanted_hours(situation, stoma, part) & ~hours_covered(situation, hands, part, lean.nursing):
            bare.add(part)
    visited = lean.nursing and any(visit.at <= situation.span.ends for visit in accepted_here(situation, stoma))
    if not visited and unexplained(situation, stoma, hands):
        bare.add("topics")
    if capped and not (lean.nursing and change_visits(situation, stoma, best)):
        bare.add("wear")
    return tuple(part for part in PARTS if part in bare)


def wanted_hours(situation: Situation, stoma: str, part: str) -> int:
    """The hours at which somebody must be able to do it: the night's own rows at night, the others always."""
    if part == "night":
        return situation.nights if situation.parts(stoma).get("night") else 0
    return situation.span.full


def hours_covered(situation: Situation, hands: Iterable[Hands], part: str, nursing: bool) -> int:
    """R2, R3: each hour at which one counted learner holds every row of the part, or the leak service comes."""
    found = covered((hand, getattr(hand.skill, part)) for hand in hands if hand.skill.knows)
    return found | situation.service if part == "leak" and nursing else found


def unexplained(situation: Situation, stoma: str, hands: Iterable[Hands]) -> tuple[str, ...]:
    """R6: essential topics, beyond the hard minimum, that none of these has explained."""
    explained = frozenset[str]().union(*(hand.skill.topics for hand in hands))
    return tuple(one.code for one in situation.parts(stoma).get("topics", ()) if one.code not in explained)


def accepted_here(situation: Situation, stoma: str) -> list:
    return accepted(situation.chart, situation.leaving or situation.now, stoma)
