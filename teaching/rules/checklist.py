"""Which rows of the checklist a stoma has, from what it is, what it wears and what is going on.

A condition is text such as "all", "none" or "drainable or urostomy and rod"; `and` binds before `or`.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.facts import BodyEvent, Chart, Checklist, Item, Kit, Stoma
from teaching.rules.vocabulary import KIT_ITEMS

STATES = ("rod", "stents", "measured", "rectum", "wound")
FEATURES = frozenset((
    "ileostomy", "colostomy", "urostomy", "drainable", "closed", "one-piece", "two-piece",
    "cut", "mouldable", "pre-cut", *STATES, *(f"kit:{item}" for item in KIT_ITEMS),
))
# What `reopened_by` may name. Delirium and its like touch every row, so no row needs to name them.
REOPENERS = {
    "outlet": "another kind of outlet",
    "tap": "another kind of tap or cap",
    "one-to-two": "two-piece after one-piece",
    "convex-or-belt": "a convex flange or a belt",
    "opening": "mouldable or pre-cut after cut to fit",
    "tubes-out": "rod or stent out",
    "re-sited": "stoma re-sited",
}

Conditions = tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Row:
    """A checklist item as it stands for one stoma now. Rated rows are judged, the others are prompts."""

    item: Item
    essential: bool
    rated: bool

    @property
    def code(self) -> str:
        return self.item.code


def conditions(text: str) -> Conditions:
    """Alternatives of words that must all hold. Raises ValueError, in a sentence, on unclear text."""
    if text.split() == ["all"]:
        return ((),)
    if text.split() == ["none"]:
        return ()
    alternatives = []
    for part in f" {text} ".split(" or "):
        words = [word.split() for word in f" {part} ".split(" and ")]
        if any(len(word) != 1 or word[0] in ("and", "or", "all", "none") for word in words):
            raise ValueError(f'"{text}" is not clear; write all, none, or words joined by "and" and "or".')
        alternatives.append(tuple(word[0] for word in words))
    return tuple(alternatives)


def holds(when: Conditions, present: frozenset[str]) -> bool:
    return any(present.issuperset(words) for words in when)


def features(stoma: Stoma, kit: Kit | None, states: frozenset[str]) -> frozenset[str]:
    """The words a condition may ask for. Without a written kit nothing is known of the pouch."""
    found = set(states.intersection(STATES))
    found.update(("colostomy", "urostomy") if stoma.kind == "wet-colostomy" else (stoma.kind,))
    if kit:
        found.update((f"{kit.pieces}-piece", kit.opening))
        found.update(f"kit:{item}" for item in kit.items)
        if "urostomy" not in found:  # urine leaves by a tap: neither bowel emptying nor swapping
            found.add(kit.closure)
    return frozenset(found)


def kits_worn(chart: Chart, stoma: str, at: datetime) -> tuple[Kit, ...]:
    """The kits of one stoma up to a moment, oldest first; the last is the one in force."""
    worn = [kit for kit in chart.kits if kit.stoma == stoma and kit.since <= at]
    return tuple(sorted(worn, key=_kit_order))


def _kit_order(kit: Kit) -> tuple:
    """By time; at the same moment in an order that does not depend on who wrote first."""
    return (kit.since, kit.pieces, kit.shape, kit.opening, kit.closure, kit.outlet, sorted(kit.items),
            kit.interval_hours or 0)


def kit_at(chart: Chart, stoma: str, at: datetime) -> Kit | None:
    worn = kits_worn(chart, stoma, at)
    return worn[-1] if worn else None


def concerns(event: BodyEvent, stoma: str) -> bool:
    return event.stoma in ("", stoma)


def lasts(event: BodyEvent, at: datetime) -> bool:
    """Begun and not yet ended; at the very moment it ends it is over."""
    return event.began <= at and (event.ended is None or at < event.ended)


def states_at(chart: Chart, stoma: str, at: datetime) -> frozenset[str]:
    return frozenset(event.code for event in chart.body_events if concerns(event, stoma) and lasts(event, at))


def applicable(chart: Chart, stoma: str | Stoma, at: datetime) -> tuple[Row, ...]:
    """The rows this stoma has at a moment, in the order of teaching; rows that do not apply are absent."""
    if isinstance(stoma, str):
        stoma = chart.stoma(stoma)
    present = features(stoma, kit_at(chart, stoma.key, at), states_at(chart, stoma.key, at))
    return rows_for(chart.checklist, present)


def rows_for(checklist: Checklist, present: frozenset[str]) -> tuple[Row, ...]:
    """Worked out once for each set of features: a published checklist never changes, and few sets are met."""
    known = checklist.rows_by_features
    if present not in known:
        known[present] = tuple(_rows(checklist.items, present))
    return known[present]


def _rows(items: tuple[Item, ...], present: frozenset[str]) -> Iterator[Row]:
    for item in items:
        if holds(item.applies, present):
            essential = holds(item.essential, present)
            yield Row(item, essential, essential or item.decision)
