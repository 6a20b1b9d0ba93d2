"""What this shift and the huddle list show: one strip a person, in the order they are read."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import NoReverseMatch, reverse

from teaching.rules.board import BoardRow
from teaching.rules.huddle import HuddleLine, huddle_line, huddle_order, spoken_date
from teaching.rules.ward import Ward


@dataclass(frozen=True, slots=True)
class Strip:
    stay: str
    line: HuddleLine
    because: str

    @property
    def stands(self) -> str:
        """What is due and what the record shows, one after the other."""
        parts = (*self.line.due, self.line.standing)
        return " ".join(f"{part.rstrip('.')}." for part in parts if part)

    @property
    def leaving(self) -> str:
        """Such as "Leaving tomorrow 12:00"; with no day, that is said."""
        planned = self.line.leaving != "no day planned"
        return f"Leaving {self.line.leaving}" if planned else "No day of leaving planned"


def strips(rows: list[BoardRow], ward: Ward, now: datetime) -> list[Strip]:
    ordered = sorted(rows, key=lambda row: huddle_order(row, now))
    return [Strip(row.stay, huddle_line(row, ward, now), row.aim_because) for row in ordered]


class ShiftPage:
    def __init__(
        self, unit, ward: Ward, rows: list[BoardRow], now: datetime, other_units=(), ticks=False, handing_over=False,
        waiting: int = 0,
    ):  # fmt: skip
        self.unit = unit.name
        day, shift = ward.shift(now)
        self.shift = f"{spoken_date(day)}, {shift}, {ward.local(now):%H:%M}"
        self.strips = strips(rows, ward, now)
        self.paper = _address("huddle-list", unit)
        self.links = [(reverse("huddle", args=[unit.uid]), "The huddle list on this screen")]
        if self.paper:
            self.links.append((self.paper, "The huddle list to print (PDF)"))
        self.links += handover_papers(unit) if handing_over else []
        if waiting:
            entries = "1 student's entry waits" if waiting == 1 else f"{waiting} students' entries wait"
            self.links.insert(0, (reverse("waiting", args=[unit.uid]), f"{entries} for a co-signature"))
        if ticks:
            self.links.insert(0, (reverse("who-teaches", args=[unit.uid]), "Who teaches this shift"))
        self.other_units = [(reverse("this-shift", args=[other.uid]), other.name) for other in other_units]

    @property
    def count(self) -> str:
        return "1 person" if len(self.strips) == 1 else f"{len(self.strips)} people"

    @property
    def call_now(self) -> str:
        """Said on the band, so that nobody scrolls past it."""
        count = sum(any(caution.call_now for caution in strip.line.cautions) for strip in self.strips)
        return f"{count} with a call-now caution" if count else ""


def handover_papers(unit) -> list[tuple[str, str]]:
    """The handover of the shift, and blank forms for a downtime."""
    blank = "Blank session form, {}, for when the computers are down (PDF)"
    return [
        (reverse("shift-handover", args=[unit.uid]), "Everybody's handover to print (PDF)"),
        (reverse("blank-session", args=[unit.uid, "bowel"]), blank.format("bowel stoma")),
        (reverse("blank-session", args=[unit.uid, "urostomy"]), blank.format("urostomy")),
    ]


def _address(name: str, unit) -> str:
    try:
        return reverse(name, args=[unit.uid])
    except NoReverseMatch:
        return ""
