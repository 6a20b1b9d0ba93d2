"""The readiness record: what is signed when a leaving is weighed. Facts in, content out; it is frozen as it is said."""

from collections.abc import Iterable
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from types import MappingProxyType
from typing import Any

from teaching.papers.dated import caution_said, dated, short
from teaching.papers.readiness_rows import Group, groups, unseen
from teaching.rules.arranged import TEACHING, VISIT
from teaching.rules.assess import RULES_VERSION, Assessment
from teaching.rules.checklist import kit_at
from teaching.rules.cover_said import CoverDrawing, cover_drawing
from teaching.rules.facts import Chart, Stoma
from teaching.rules.fit import mm, sizes
from teaching.rules.gaps import Gap
from teaching.rules.huddle import unsettled
from teaching.rules.lines import Policy
from teaching.rules.readiness import READINESS_VERSION, OfStoma, Readiness
from teaching.rules.readiness_said import (
    GapSaid,
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
from teaching.rules.spoken import kit_words, stoma_name
from teaching.rules.take_along import take_along
from teaching.rules.who_helps import helpers_said

SUPPORTS = "This record says what was written down up to then. It supports, and never replaces, a clinician's decision."
NO_CUT_OFF = "No published limit says when somebody is independent enough to go home; the levels are those of policy."
LEVELS = "06 is alone, with nobody speaking. Told is not shown; what was not rated counts neither way."
MEANING = (
    "I have read this record and sign that it is what stands written down. "
    "Whether the person leaves is a clinician's decision."
)


@dataclass(frozen=True, slots=True)
class Person:
    """Two identifiers and the place. `born` is said as "2 Mar 1958"."""

    name: str
    born: str
    number: str
    unit: str
    bed: str


@dataclass(frozen=True, slots=True)
class Said:
    """One line: its name, and what is said of it."""

    name: str
    said: str


@dataclass(frozen=True, slots=True)
class CautionSaid:
    list: str
    words: str
    state: str


@dataclass(frozen=True, slots=True)
class Signature:
    name: str
    role: str
    at: str
    meaning: str = MEANING


@dataclass(frozen=True, slots=True)
class ReadinessRecord:
    """Everything the paper says, in words. `signature` None: a draft. `replaces` names the record before, or ""."""

    person: Person
    result: str
    judged: str
    leaving: str
    because: tuple[str, ...]
    gaps: tuple[GapSaid, ...]
    missing: tuple[GapSaid, ...]
    stomas: tuple[Said, ...]
    cautions: tuple[CautionSaid, ...]
    groups: tuple[Group, ...]
    unseen: tuple[str, ...]
    cover: CoverDrawing
    helpers: tuple[Said, ...]
    arrangements: tuple[Said, ...]
    take_along: tuple[str, ...]
    visits: tuple[Said, ...]
    appointments: tuple[Said, ...]
    to_do: tuple[str, ...]
    plan: tuple[str, ...]
    policy: str
    versions: str
    replaces: str = ""
    signature: Signature | None = None

    @property
    def plain(self) -> dict[str, Any]:
        """As it is kept: names, lists and words alone; `headline` is what a list of kept papers says of it."""
        return {"headline": self.headline, **asdict(self)}

    @property
    def headline(self) -> str:
        signed = self.signature
        return f"{self.result}. Signed by {signed.name}, {signed.role}, {signed.at}." if signed else f"{self.result}."

    @property
    def steps(self) -> list[Group]:
        return [one for one in self.groups if one.procedure != "topics"]

    @property
    def topics(self) -> list[Group]:
        return [one for one in self.groups if one.procedure == "topics"]

    def signed(self, name: str, role: str, at: str) -> "ReadinessRecord":
        return replace(self, signature=Signature(name, role, at))


def readiness_record(
    chart: Chart,
    assessment: Assessment,
    readiness: Readiness,
    policy: Policy,
    now: datetime,
    *,
    person: Person,
    plan: Iterable[str] = (),
    written: Written = MappingProxyType({}),
    replaces: str = "",
) -> ReadinessRecord:
    """The record as it stands at `now` (UTC). `plan` are the teaching plan's own sentences, where one was made.

    `written`: who wrote down each arrangement, visit and appointment, and when.
    """

    def say(moment: datetime) -> str:
        return short(moment, chart.ward)

    def wanting(found: Iterable[Gap]) -> tuple[GapSaid, ...]:
        return tuple(gap_said(chart, gap, person.name, now, say) for gap in found)

    def by_whom(said: str, code: str, key: str = "") -> str:
        return "; ".join(part for part in (said, by_said(written, code, key, say)) if part)

    rests = at_rest(chart)
    kinds = list(offered(chart, policy, now))
    return ReadinessRecord(
        person=person,
        result=result_said(chart, readiness),
        judged=dated(readiness.at, chart.ward),
        leaving=_leaving(chart, readiness),
        because=(rests,) if rests else tuple(words(reason) for reason in readiness.because),
        gaps=() if rests else wanting(readiness.gaps),
        missing=() if rests else wanting(readiness.missing),
        stomas=tuple(_stoma(chart, stoma, _judged(readiness, stoma), now) for stoma in chart.stomas),
        cautions=tuple(CautionSaid(*caution_said(one, chart.ward, now)) for one in unsettled(chart.cautions)),
        groups=tuple(_unasked(one) if rests else one for one in groups(chart, assessment, person.name)),
        unseen=tuple(unseen(chart, assessment, person.name)),
        cover=cover_drawing(chart, readiness, person.name),
        helpers=tuple(Said(*told) for told in helpers_said(chart, person.name, now, say)),
        arrangements=tuple(
            Said(kind.words, by_whom(arranged_said(chart, kind, now, say), kind.code)) for kind in kinds
        ),
        take_along=tuple(words(one) for one in take_along(chart, policy, now)),
        visits=tuple(
            Said(say(one.at), by_whom(visit_said(one), VISIT, one.key))
            for one in sorted(chart.visits, key=lambda one: (one.at, one.key))
        ),
        appointments=tuple(
            Said(say(one.at), by_whom(appointment_said(chart, one, person.name), TEACHING, one.key))
            for one in sorted(chart.appointments, key=lambda one: (one.at, one.key)) if one.at >= now
        ),
        to_do=tuple(words(one.reason) for one in readiness.to_do),
        plan=() if rests else tuple(plan),
        policy=policy.version,
        versions=f"checklist {chart.checklist.code} {chart.checklist.number}, rules {RULES_VERSION}, "
                 f"readiness {READINESS_VERSION}",
        replaces=replaces,
    )  # fmt: skip


def _unasked(group: Group) -> Group:
    """What was shown, without what is still wanted of it."""
    return replace(group, rows=tuple(replace(row, needed="") for row in group.rows))


def _leaving(chart: Chart, readiness: Readiness) -> str:
    if readiness.leaving is None:
        return "No day of leaving is planned."
    where = "to a care facility" if chart.goes_to == "facility" else "home"
    return f"Planned leaving: {where}, {dated(readiness.leaving, chart.ward)}."


def _judged(readiness: Readiness, stoma: Stoma) -> OfStoma | None:
    return next((one for one in readiness.stomas if one.stoma == stoma.key), None)


def _stoma(chart: Chart, stoma: Stoma, judged: OfStoma | None, now: datetime) -> Said:
    kit = kit_at(chart, stoma.key, now)
    said = [kit_words(kit) if kit else "no pouch is written down yet", _size(chart, stoma, now)]
    if judged and judged.due:
        said.append(f"first change after leaving due {short(judged.due, chart.ward)}")
    if judged and len(chart.stomas) > 1:
        said.append(f"by itself: {judged.result}")
    label = f"{stoma.label} stoma: {stoma_name(stoma)}" if len(chart.stomas) > 1 else stoma_name(stoma)
    return Said(label[:1].upper() + label[1:], "; ".join(said))


def _size(chart: Chart, stoma: Stoma, now: datetime) -> str:
    known = sizes(chart, stoma.key, now)
    if not known:
        return "size not written down"
    size = known[-1]
    lengths = [mm(one) for one in (size.width_mm, size.height_mm) if one is not None]
    said = f"stoma {' by '.join(lengths)} mm, measured {short(size.at, chart.ward)}"
    if size.opening_width_mm and size.opening_height_mm:
        said += f", opening {mm(size.opening_width_mm)} by {mm(size.opening_height_mm)} mm"
    return said
