"""A blank session form for a downtime: the rows and words of the screen, to be entered later as a late entry."""

from dataclasses import dataclass

from teaching.rules.checklist import FEATURES, holds
from teaching.rules.items import Checklist, Item
from teaching.rules.vocabulary import (
    BLEEDING,
    COLOURS,
    DECISIONS,
    EDGES,
    INTERPRETERS,
    LEVELS,
    LOWER_REASONS,
    NEVER_OFFERED,
    NOT_ATTEMPTED,
    NOTICED_BY,
    PHASES,
    PLACES,
    PROCEDURES,
    SKIN,
    SKIN_REGIONS,
    STANDS,
    TOPIC_ANSWERS,
    WEAR_ENDS,
    WETNESS,
    Answer,
)

KINDS = {"bowel": "a bowel stoma", "urostomy": "a urostomy"}
# What a stoma of the other kind has. A blank form shows every row that some kit of its own kind would have.
NOT_OF_THE_KIND = {
    "bowel": frozenset({"urostomy", "stents", "kit:night-bag"}),
    "urostomy": frozenset({"ileostomy", "colostomy", "drainable", "closed", "kit:large-bag", "rectum", "measured"}),
}
FRONT = "change"
BACK = {"bowel": ("emptying", "swap"), "urostomy": ("urine", "night")}


@dataclass(frozen=True, slots=True)
class Group:
    """Rows under one heading. `alone` is the sentence that rates all of them at once, "" where there is none."""

    title: str
    rows: tuple[Item, ...]
    alone: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing that was seen, and the answers to ring."""

    title: str
    answers: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BlankSession:
    kind: str
    unit: str
    front: tuple[Group, ...]
    back: tuple[Group, ...]
    topics: tuple[Item, ...]
    seen: tuple[Asked, ...]
    version: str
    printed_at: str
    printed_by: str

    levels: tuple[Answer, ...] = LEVELS
    not_rated: tuple[Answer, ...] = tuple(one for one in NOT_ATTEMPTED if one.code != NEVER_OFFERED)
    decisions: tuple[Answer, ...] = DECISIONS
    topic_answers: tuple[Answer, ...] = TOPIC_ANSWERS
    places: tuple[str, ...] = tuple(PLACES.values())
    interpreters: tuple[str, ...] = tuple(INTERPRETERS.values())
    reasons: tuple[str, ...] = tuple(LOWER_REASONS.values())
    regions: tuple[str, ...] = tuple(SKIN_REGIONS.values())
    skin: tuple[str, ...] = tuple(SKIN.values())

    @property
    def foot(self) -> str:
        return (
            f"Blank session form, {self.kind}, checklist {self.version}. Printed {self.printed_at} by "
            f"{self.printed_by}. Rate only what you saw: told is not shown, not rated is not zero."
        )


def blank_session_content(
    *, kind: str, unit: str, checklist: Checklist, printed_at: str, printed_by: str
) -> BlankSession:
    """`kind` is of KINDS; KeyError for any other. The rows are those of the unit's checklist in force."""
    rows = _possible(checklist, kind)
    return BlankSession(
        kind=KINDS[kind],
        unit=unit,
        front=_phases([row for row in rows if row.procedure == FRONT]),
        back=tuple(
            Group(PROCEDURES[procedure], own)
            for procedure in BACK[kind]
            if (own := tuple(row for row in rows if row.procedure == procedure))
        ),
        topics=tuple(row for row in rows if row.topic and row.essential),
        seen=SEEN,
        version=f"{checklist.code} {checklist.number}",
        printed_at=printed_at,
        printed_by=printed_by,
    )


def _possible(checklist: Checklist, kind: str) -> list[Item]:
    present = FEATURES - NOT_OF_THE_KIND[kind]
    return [item for item in checklist.items if holds(item.applies, present)]


def _phases(rows: list[Item]) -> tuple[Group, ...]:
    """The phases in order, each with the sentence that stands first in it on the screen."""
    return tuple(
        Group(words, own, "All of this alone, nobody spoke")
        for phase, words in PHASES.items()
        if (own := tuple(row for row in rows if row.phase == phase))
    )


SEEN = (
    Asked("Colour", tuple(COLOURS.values())),
    Asked("Wetness", tuple(WETNESS.values())),
    Asked("Edge", tuple(EDGES.values())),
    Asked("Stands out", tuple(STANDS.values())),
    Asked("Bleeding", tuple(BLEEDING.values())),
    Asked("The last pouch ended", tuple(WEAR_ENDS.values())),
    Asked("Skin noticed by", tuple(NOTICED_BY.values())),
)
