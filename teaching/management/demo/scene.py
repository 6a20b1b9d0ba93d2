"""One person's stay while their story is played, and how a story's words become the record's entries."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import Any

from teaching.management.demo import story
from teaching.models import Learner, Stay, Stoma
from teaching.record.actor import Actor
from teaching.record.entries import FindingEntry, KitEntry


@dataclass
class Scene:
    """One person's stay while their story is played: who acts, which stomas by side, who learns."""

    now: datetime
    actors: Mapping[str, Actor]
    stay: Stay
    person: Learner
    helper: Learner | None = None
    stomas: dict[str, Stoma] = field(default_factory=dict)
    language: str = "en"

    def at(self, text: str) -> datetime:
        return story.moment(text, self.now)

    def stoma(self, each: story.Moment) -> Stoma:
        """The one named by its side, else the only one."""
        return self.stomas[each.stoma] if each.stoma else next(iter(self.stomas.values()))

    def told(self, each: story.Moment) -> dict[str, Any]:
        """Who, when and which stay: what most entries begin with."""
        return {"stay": self.stay, "stoma": self.stoma(each), "procedure": getattr(each, "procedure", "")}


def kit_entry(pouch: story.Pouch, since: datetime) -> KitEntry:
    return KitEntry(
        pieces=pouch.pieces, opening=pouch.opening, closure=pouch.closure, outlet=pouch.outlet,
        items=pouch.items, interval_hours=pouch.interval_hours, happened_at=since,
    )  # fmt: skip


def finding(seen: Mapping[str, Any]) -> FindingEntry | None:
    if not seen:
        return None
    return FindingEntry(
        **{name: Decimal(value) if name.endswith("_mm") else value for name, value in seen.items()}
    )
