"""The list of who goes home when: days, with people under them; on one day those who will not make it first."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.urls import reverse

from teaching.record.outlook import GoingHome
from teaching.rules.huddle import spoken_date
from teaching.rules.ward import Ward

FRIDAY, MONDAY = 4, 0
NO_DAY = "No day of leaving planned"
WEEKEND_DAYS = 4  # Friday to Monday: services answer late, and what is missing on Friday is missing till Monday


@dataclass(frozen=True, slots=True)
class Person:
    """One strip: who, when, what the record shows, why not, and the one thing that would help most."""

    address: str
    bed: str
    name: str
    clock: str
    words: str
    makes_it: bool
    why: str
    helps: str


@dataclass(frozen=True, slots=True)
class Day:
    title: str
    people: tuple[Person, ...]


class GoingHomePage:
    def __init__(self, unit, ward: Ward, rows: list[GoingHome], now: datetime, weekend: bool = False):
        self.unit, self.uid, self.ward, self.now, self.weekend = unit.name, unit.uid, ward, now, weekend
        self.today = ward.date(now)
        shown = [row for row in rows if not weekend or self._over_the_weekend(row)]
        self.days = tuple(self._days(shown))
        self.count = len(shown)

    @property
    def title(self) -> str:
        return "Leaving from Friday to Monday" if self.weekend else "Going home"

    @property
    def other(self) -> tuple[str, str]:
        """The way to the other of the two lists."""
        name, words = ("going-home", "Everybody") if self.weekend else ("weekend", "Only Friday to Monday")
        return reverse(name, args=[self.uid]), words

    @property
    def said(self) -> str:
        people = "1 person" if self.count == 1 else f"{self.count} people"
        wanting = sum(not person.makes_it for day in self.days for person in day.people)
        return f"{people}, {wanting} not there yet" if wanting else people

    def _day(self, row: GoingHome) -> date | None:
        return self.ward.date(row.planned_at) if row.planned_at else None

    def _over_the_weekend(self, row: GoingHome) -> bool:
        """From the coming Friday, or the one that has begun, to the Monday after it."""
        day = self._day(row)
        since_friday = (self.today.weekday() - FRIDAY) % 7
        begun = since_friday < WEEKEND_DAYS
        friday = self.today - timedelta(days=since_friday) + (timedelta() if begun else timedelta(days=7))
        return day is not None and max(friday, self.today) <= day < friday + timedelta(days=WEEKEND_DAYS)

    def _days(self, rows: list[GoingHome]):
        by_day: dict[date | None, list[GoingHome]] = {}
        for row in rows:
            by_day.setdefault(self._day(row), []).append(row)
        for day in sorted(by_day, key=lambda day: (day is None, day or self.today)):
            people = sorted(by_day[day], key=lambda row: (row.outlook.makes_it, row.planned_at or self.now, row.bed))
            yield Day(self._named(day), tuple(self._person(row) for row in people))

    def _named(self, day: date | None) -> str:
        if day is None:
            return NO_DAY
        near = {0: "Today", 1: "Tomorrow"}.get((day - self.today).days, "")
        past = " (was planned)" if day < self.today else ""
        return f"{near}, {spoken_date(day)}" if near else spoken_date(day) + past

    def _person(self, row: GoingHome) -> Person:
        told = row.outlook
        return Person(
            address=reverse("readiness", args=[row.stay]),
            bed=row.bed or "no bed",
            name=row.name,
            clock=f"{self.ward.local(row.planned_at):%H:%M}" if row.planned_at else "",
            words="Teaching is paused" if row.paused else told.words.capitalize(),
            makes_it=told.makes_it or row.paused,
            why="" if row.paused else told.why,
            helps="" if row.paused else told.helps,
        )
