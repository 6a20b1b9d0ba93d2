"""One person's readiness: the result and why, each gap and who could close it, cover, arrangements, what is to come."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.discharge.form_page import cautions_of
from teaching.rules.arranged import TEACHING, VISIT
from teaching.rules.arrangements import TO_DO, Kind
from teaching.rules.assess import Assessment
from teaching.rules.band import Band, band_of
from teaching.rules.cover_said import CoverDrawing, cover_drawing
from teaching.rules.facts import Chart
from teaching.rules.gaps import Gap
from teaching.rules.huddle import spoken_date, when
from teaching.rules.in_place import newest
from teaching.rules.lines import Policy
from teaching.rules.readiness import Readiness
from teaching.rules.readiness_said import (
    Closing,
    Written,
    appointment_said,
    arranged_said,
    at_rest,
    by_said,
    gap_said,
    offered,
    result_said,
    visit_said,
)
from teaching.rules.reasons import words
from teaching.rules.take_along import take_along
from teaching.rules.who_helps import helpers_said

MEANS = {
    "self-caring": "The person holds all of it, at every hour.",
    "with a named helper": "Between the person and the helper all of it is held.",
    "with nursing care arranged": "What the person does not hold, a nurse comes for. On a short stay this is usual.",
    "care arranged": "A named nurse there has accepted the care.",
    "not yet": "This is information, not failure: below stands what would change it.",
    "cannot say": "Nothing speaks against it, but something is not known.",
}
TAKES_PLACE = ("booked", "confirmed", "held")


@dataclass(frozen=True, slots=True)
class Wanting:
    words: str
    ways: tuple[Closing, ...]
    address: str


@dataclass(frozen=True, slots=True)
class Line:
    """One thing arranged or to arrange: its name, how far it is, where to record it, and who wrote it down and when."""

    name: str
    said: str
    address: str
    made: bool
    by: str = ""


class ReadinessPage:
    def __init__(self, stay, chart: Chart, assessment: Assessment, readiness: Readiness, policy: Policy, now: datetime,
                 written: Written):
        self.stay, self.chart, self.assessment, self.policy, self.now = stay, chart, assessment, policy, now
        self.readiness, self.written = readiness, written
        self.band: Band = band_of(stay.now, chart)
        self.cautions = cautions_of(chart, now)
        self.cover: CoverDrawing = cover_drawing(chart, readiness, self.band.name)

    def _when(self, moment: datetime) -> str:
        return when(moment, self.chart.ward, self.now)

    def _dated(self, moment: datetime) -> str:
        """Of what is past: a weekday alone could be the coming one."""
        here = self.chart.ward.local(moment)
        return f"{spoken_date(here.date())} {here:%H:%M}"

    @property
    def result(self) -> str:
        return result_said(self.chart, self.readiness)

    @property
    def at_rest(self) -> str:
        return at_rest(self.chart)

    @property
    def means(self) -> str:
        return self.at_rest or MEANS[self.readiness.words]

    @property
    def leaving(self) -> str:
        if self.readiness.leaving is None:
            return "No day of leaving is planned."
        to = " to a care facility" if self.chart.goes_to == "facility" else ""
        return f"Leaving {self._when(self.readiness.leaving)}{to}."

    @property
    def because(self) -> list[str]:
        return [] if self.at_rest else [words(reason) for reason in self.readiness.because]

    @property
    def gaps(self) -> list[Wanting]:
        return [] if self.at_rest else [self._wanting(gap) for gap in self.readiness.gaps]

    @property
    def missing(self) -> list[Wanting]:
        return [] if self.at_rest else [self._wanting(gap) for gap in self.readiness.missing]

    def _wanting(self, gap: Gap) -> Wanting:
        told = gap_said(self.chart, gap, self.band.name, self.now, self._when)
        address = self._arrange(gap.code) if gap.part == "arrangement" and gap.code else ""
        return Wanting(told.words, told.ways, address)

    @property
    def must(self) -> list[Line]:
        return [self._line(kind) for kind in self._offered if kind.weight != TO_DO]

    @property
    def take_along(self) -> list[str]:
        return [words(one) for one in take_along(self.chart, self.policy, self.now)]

    @property
    def besides(self) -> list[Line]:
        return [self._line(kind) for kind in self._offered if kind.weight == TO_DO]

    @property
    def _offered(self) -> list[Kind]:
        return list(offered(self.chart, self.policy, self.now))

    def _line(self, kind: Kind) -> Line:
        known = newest(self.chart, kind.code, self.now)
        said = arranged_said(self.chart, kind, self.now, self._when)
        return Line(kind.words, said, self._arrange(kind.code), known is not None and known.state == "made",
                    self._by(kind.code))  # fmt: skip

    def _by(self, code: str, key: str = "") -> str:
        return by_said(self.written, code, key, self._dated)

    def _arrange(self, code: str) -> str:
        return reverse("arrange", args=[self.stay.uid, code])

    @property
    def visits(self) -> list[Line]:
        return [
            Line(
                self._when(one.at).capitalize(), visit_said(one), reverse("visit", args=[self.stay.uid, one.key]),
                one.state == "made", self._by(VISIT, one.key),
            )
            for one in sorted(self.chart.visits, key=lambda one: one.at)
        ]  # fmt: skip

    @property
    def appointments(self) -> list[Line]:
        return [
            Line(
                self._when(one.at).capitalize(), appointment_said(self.chart, one, self.band.name),
                reverse("appointment", args=[self.stay.uid, one.key]), one.state in TAKES_PLACE,
                self._by(TEACHING, one.key),
            )
            for one in sorted(self.chart.appointments, key=lambda one: one.at)
        ]  # fmt: skip

    @property
    def helpers(self) -> list[tuple[str, str]]:
        return list(helpers_said(self.chart, self.band.name, self.now, self._dated))
