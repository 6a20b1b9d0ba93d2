"""The checklist as the rules see it: its rows, their conditions, and who lends evidence to whom."""

from collections import Counter, defaultdict
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from teaching.rules.vocabulary import PROCEDURES


@dataclass(frozen=True, slots=True)
class Item:
    """One row of the checklist: a step shown with the hands, or a topic explained in own words.

    `applies` and `essential` are the row's conditions as alternatives of feature words that must all hold:
    ((),) always, () never. `phase` is "" outside a pouch change. `practice_share` is all, one of two or none.
    """

    code: str
    procedure: str
    position: int
    applies: tuple[tuple[str, ...], ...] = ((),)
    essential: tuple[tuple[str, ...], ...] = ()
    phase: str = ""
    decision: bool = False
    hard_minimum: bool = False
    looking: bool = False
    practice_share: str = "none"
    evidence_group: str = ""
    lends_to: frozenset[str] = frozenset()
    reopened_by: frozenset[str] = frozenset()
    continues: str = ""
    title: str = ""
    good: str = ""
    ask_back: str = ""
    watch_for: str = ""

    @property
    def topic(self) -> bool:
        return self.procedure == "topics"


@dataclass(frozen=True)
class Checklist:
    """A published version, in one language: items in the order they are taught."""

    code: str
    number: int
    items: tuple[Item, ...]

    @cached_property
    def by_code(self) -> dict[str, Item]:
        return {item.code: item for item in self.items}

    @cached_property
    def rows_by_features(self) -> dict[frozenset[str], Any]:
        """Filled by `checklist.rows_for`."""
        return {}

    @cached_property
    def titles(self) -> dict[str, str]:
        """Each row's title by code; where two rows share one, it says of which procedure."""
        shared = Counter(item.title for item in self.items)
        return {
            item.code: f"{item.title}, {PROCEDURES[item.procedure].lower()}" if shared[item.title] > 1 else item.title
            for item in self.items
        }

    @cached_property
    def lenders(self) -> dict[str, tuple[Item, ...]]:
        """Who lends a row their showings: the others of its evidence group, and whoever names it."""
        found = defaultdict(list)
        for lender in self.items:
            for row in self.items:
                together = lender.evidence_group and lender.evidence_group == row.evidence_group
                if row is not lender and (together or row.code in lender.lends_to):
                    found[row.code].append(lender)
        return {code: tuple(items) for code, items in found.items()}
