"""The band that stays on top of every page about one person: two identifiers, the bed, the stoma."""

from dataclasses import dataclass
from datetime import date
from typing import Protocol

from teaching.rules.facts import Chart
from teaching.rules.huddle import MONTHS
from teaching.rules.spoken import stoma_name


class Here(Protocol):
    """What is read of a stay's row of the board."""

    name: str
    born: date
    mrn: str
    bed: str


@dataclass(frozen=True, slots=True)
class Band:
    """`bed` is short, for a page's title; `place` says it whole. In the bed of whoever has left lies somebody else."""

    name: str
    born: str
    number: str
    bed: str
    place: str
    stomas: str

    @property
    def identifiers(self) -> str:
        """What the person is asked to say before anything is recorded."""
        return f"{self.name}, born {self.born}, number {self.number}"


def band_of(here: Here, chart: Chart) -> Band:
    left = chart.state == "left"
    return Band(
        name=here.name,
        born=day_words(here.born),
        number=here.mrn,
        bed="Left" if left else here.bed or "No bed",
        place="has left" if left else place_words(here.bed),
        stomas=" and ".join(stoma_name(stoma) for stoma in chart.stomas) or "no stoma written down yet",
    )


def place_words(bed: str) -> str:
    return f"bed {bed}" if bed else "no bed written"


def day_words(day: date) -> str:
    """Such as "2 Mar 1958"."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"
