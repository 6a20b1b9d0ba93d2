"""What a sheet for home is drawn from: the record, the unit's slots and numbers, and who may fill a slot."""

from dataclasses import dataclass
from datetime import datetime

from teaching.access.roster import roster
from teaching.papers.read_readiness import person_here
from teaching.papers.readiness_record import Person
from teaching.record.handing_over import Known, known_of
from teaching.record.places import settings_of
from teaching.rules.readiness import Readiness, ready


@dataclass(frozen=True)
class Home:
    """One stay at one moment. `phones` (label, number, hours), `slots` by code, `language` "" where not known."""

    known: Known
    readiness: Readiness
    person: Person
    phones: tuple[tuple[str, str, str], ...]
    slots: dict[str, str]

    @property
    def chart(self):
        return self.known.chart

    @property
    def policy(self):
        return self.known.policy

    @property
    def language(self) -> str:
        return self.known.who.language


def home_of(stay, unit, now: datetime) -> Home:
    known = known_of(stay, now)
    return Home(
        known=known,
        readiness=ready(known.chart, known.assessment, known.policy, now),
        person=person_here(stay, unit),
        phones=known.beside.phones,
        slots=dict(settings_of(unit).slots),
    )


def who_fills_slots(unit) -> list[str]:
    """The unit's leads, by name: they alone may fill in what only the unit's clinician decides."""
    return [member.name for member in roster(unit) if "lead" in member.roles]
