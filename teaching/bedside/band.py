"""The band that stays on top: who this is, by two identifiers, where they lie, and what stoma they have."""

from dataclasses import dataclass
from datetime import date

from teaching.rules.facts import Chart
from teaching.rules.huddle import MONTHS
from teaching.rules.spoken import stoma_name as stoma_name


@dataclass(frozen=True, slots=True)
class Band:
    name: str
    born: str
    number: str
    bed: str
    stomas: str

    @property
    def identifiers(self) -> str:
        """What the person is asked to say before anything is recorded."""
        return f"{self.name}, born {self.born}, number {self.number}"


def band_of(stay, chart: Chart) -> Band:
    here = stay.now
    return Band(
        name=here.name,
        born=day_words(here.born),
        number=here.mrn,
        bed=here.bed or "no bed written",
        stomas=" and ".join(stoma_name(stoma) for stoma in chart.stomas) or "no stoma written down yet",
    )


def day_words(day: date) -> str:
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"
