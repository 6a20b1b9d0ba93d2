"""One person's readiness: the result and why, each gap and who could close it, cover, arrangements, what is to come."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.discharge.form_page import cautions_of
from teaching.rules.arrangements import CATALOGUE, COVER, TO_DO, Kind
from teaching.rules.assess import Assessment
from teaching.rules.band import Band, band_of
from teaching.rules.cover_said import CoverDrawing, cover_drawing
from teaching.rules.facts import Appointment, Chart, Visit
from teaching.rules.gaps import CLOSERS, Gap, Way
from teaching.rules.huddle import sentences, when
from teaching.rules.in_place import newest, wanted
from teaching.rules.lines import Policy
from teaching.rules.readiness import Readiness
from teaching.rules.reasons import words
from teaching.rules.vocabulary import APPOINTMENT_STATES, ARRANGEMENT_STATES, PROCEDURES

MEANS = {
    "self-caring": "The person holds all of it, at every hour.",
    "with a named helper": "Between the person and the helper all of it is held.",
    "with nursing care arranged": "What the person does not hold, a nurse comes for. On a short stay this is usual.",
    "care arranged": "A named nurse there has accepted the care.",
    "not yet": "This is information, not failure: below stands what would change it.",
    "cannot say": "Nothing speaks against it, but something is not known.",
}


NAMED_STEPS = 3


@dataclass(frozen=True, slots=True)
class Closing:
    """One way to close a gap, in words: what, who could, by when."""

    words: str
    who: str
    by: str


@dataclass(frozen=True, slots=True)
class Wanting:
    words: str
    ways: tuple[Closing, ...]
    address: str


@dataclass(frozen=True, slots=True)
class Line:
    """One thing arranged or to arrange: its name, how far it is, and where to record it."""

    name: str
    said: str
    address: str
    made: bool


class ReadinessPage:
    def __init__(self, stay, chart: Chart, assessment: Assessment, readiness: Readiness, policy: Policy, now: datetime):
        self.stay, self.chart, self.assessment, self.policy, self.now = stay, chart, assessment, policy, now
        self.readiness = readiness
        self.band: Band = band_of(stay.now, chart)
        self.cautions = cautions_of(chart, now)
        self.cover: CoverDrawing = cover_drawing(chart, readiness)

    @property
    def result(self) -> str:
        return self.readiness.words.capitalize()

    @property
    def means(self) -> str:
        return MEANS[self.readiness.words]

    @property
    def leaving(self) -> str:
        if self.readiness.leaving is None:
            return "No day of leaving is planned."
        to = " to a care facility" if self.chart.goes_to == "facility" else ""
        return f"Leaving {when(self.readiness.leaving, self.chart.ward, self.now)}{to}."

    @property
    def because(self) -> list[str]:
        return [words(reason) for reason in self.readiness.because]

    @property
    def gaps(self) -> list[Wanting]:
        return [self._wanting(gap) for gap in self.readiness.gaps]

    @property
    def missing(self) -> list[Wanting]:
        return [self._wanting(gap) for gap in self.readiness.missing]

    def _wanting(self, gap: Gap) -> Wanting:
        ways = tuple(self._closing(way, gap) for way in gap.ways)
        address = self._arrange(gap.code) if gap.part == "arrangement" and gap.code else ""
        return Wanting(words(gap.reason), ways, address)

    def _closing(self, way: Way, gap: Gap) -> Closing:
        learner = self.chart.learner(way.learner) if way.learner else None
        whose = f"{learner.name or self.band.name}: " if learner and len(self.chart.learners) > 1 else ""
        said = "" if way.reason == gap.reason else f"{whose}{words(way.reason)}{self._steps(way.rows)}"
        by = f"by {when(way.by, self.chart.ward, self.now)}" if way.by and way.by > self.now else ""
        return Closing(said, CLOSERS[way.who], by)

    def _steps(self, codes: tuple[str, ...]) -> str:
        """The first few steps by name, and how many more: all of them stand on the person's own page."""
        titles = [self.chart.checklist.by_code[code].title for code in codes]
        if len(titles) > NAMED_STEPS:
            titles[NAMED_STEPS - 1 :] = [f"and {len(titles) - NAMED_STEPS + 1} more steps"]
        return f" ({'; '.join(titles)})" if titles else ""

    @property
    def must(self) -> list[Line]:
        return [self._line(kind) for kind in self._offered() if kind.weight != TO_DO]

    @property
    def besides(self) -> list[Line]:
        return [self._line(kind) for kind in self._offered() if kind.weight == TO_DO]

    def _offered(self) -> list[Kind]:
        """What this stay must or should have, and what a result may lean on."""
        asked = [kind for kind in wanted(self.chart, self.policy, self.now) if kind.asked]
        at_home = self.chart.goes_to == "home"
        return asked + [kind for kind in CATALOGUE if kind.weight == COVER and (at_home or kind.facility)]

    def _line(self, kind: Kind) -> Line:
        known = newest(self.chart, kind.code, self.now)
        if known is None:
            return Line(kind.words, "not recorded", self._arrange(kind.code), False)
        due = when(known.due_at, self.chart.ward, self.now) if known.due_at else ""
        told = [f"{detail.words}: {_plain(known.detail(detail.name))}" for detail in kind.details
                if known.detail(detail.name) not in (None, "")]
        said = ", ".join(part for part in (ARRANGEMENT_STATES[known.state], due, *told, known.value) if part)
        return Line(kind.words, said, self._arrange(kind.code), known.state == "made")

    def _arrange(self, code: str) -> str:
        return reverse("arrange", args=[self.stay.uid, code])

    @property
    def visits(self) -> list[Line]:
        return [self._visit(one) for one in sorted(self.chart.visits, key=lambda one: one.at)]

    def _visit(self, one: Visit) -> Line:
        what = "to change the pouch" if one.for_change else "to look only"
        who = f"accepted by {one.accepted_by}" if one.accepted_by else ARRANGEMENT_STATES[one.state]
        state = ARRANGEMENT_STATES[one.state] if one.state in ("refused", "cancelled") else who
        said = ", ".join(part for part in (what, one.service, state) if part)
        moment = when(one.at, self.chart.ward, self.now).capitalize()
        return Line(moment, said, reverse("visit", args=[self.stay.uid, one.key]), one.state == "made")

    @property
    def appointments(self) -> list[Line]:
        return [self._appointment(one) for one in sorted(self.chart.appointments, key=lambda one: one.at)]

    def _appointment(self, one: Appointment) -> Line:
        who = " and ".join(each.name or self.band.name for each in self.chart.learners if each.key in one.learners)
        seen = {True: "a nurse signed off will see it", False: "nobody signed off will see it", None: ""}[one.may_teach]
        what = PROCEDURES[one.procedure].lower() + (", practice" if one.practice else "")
        said = ", ".join(part for part in (what, who, one.aim, seen, APPOINTMENT_STATES[one.state], one.why) if part)
        moment = when(one.at, self.chart.ward, self.now).capitalize()
        address = reverse("appointment", args=[self.stay.uid, one.key])
        return Line(moment, said, address, one.state in ("booked", "confirmed", "held"))

    @property
    def helpers(self) -> str:
        told = [
            f"{each.name}: {'hours written down' if each.week or each.exceptions else 'nobody has said at which hours'}"
            for each in self.chart.learners if each.kind == "helper"
        ]
        return sentences(*told)


def _plain(said) -> str:
    return {True: "yes", False: "no"}.get(said, str(said)) if isinstance(said, bool) else str(said)
