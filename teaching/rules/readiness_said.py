"""What stands around a readiness in words: gaps and who could close them, arrangements, visits, times for teaching.

Used by the screen and by the paper, so the two never say different things. `say` tells a moment (UTC) in words:
a screen says "tomorrow 10:00", a kept paper the date.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from teaching.rules.arrangements import CATALOGUE, COVER, DAY, Detail, Kind
from teaching.rules.facts import Appointment, Arrangement, Chart, Visit
from teaching.rules.gaps import CLOSERS, Gap, Way
from teaching.rules.huddle import spoken_date
from teaching.rules.in_place import newest, wanted
from teaching.rules.lines import Policy
from teaching.rules.readiness import Readiness
from teaching.rules.reasons import words
from teaching.rules.vocabulary import APPOINTMENT_STATES, ARRANGEMENT_STATES, PROCEDURES

Say = Callable[[datetime], str]
Written = Mapping[tuple[str, str], tuple[str, datetime]]  # by code and key: who wrote down what is in force, and when
NAMED_STEPS = 3


@dataclass(frozen=True, slots=True)
class Closing:
    """One way to close a gap, in words: what ("" where the gap says it), who could, by when ("" not known)."""

    words: str
    who: str
    by: str


@dataclass(frozen=True, slots=True)
class GapSaid:
    words: str
    ways: tuple[Closing, ...]


AT_REST = {
    "paused": "Teaching is paused: nothing is asked of anybody while it lasts. Cautions and arrangements stay.",
    "stopped": "Teaching has stopped for good: nothing is asked of anybody.",
    "cancelled": "This stay was cancelled: nothing is asked of anybody.",
}


def at_rest(chart: Chart) -> str:
    """Why nothing is asked for and no result is said; "" while teaching goes on, and of whoever has left."""
    return AT_REST.get(chart.state, "")


def result_said(chart: Chart, readiness: Readiness) -> str:
    """The result as page and paper say it: of a stay at rest, that it rests."""
    return (chart.state if at_rest(chart) else readiness.words).capitalize()


def gap_said(chart: Chart, gap: Gap, person: str, now: datetime, say: Say) -> GapSaid:
    """`person`: how the one whose stay it is is named, where a helper learns too."""
    return GapSaid(words(gap.reason), tuple(_closing(chart, way, gap, person, now, say) for way in gap.ways))


def _closing(chart: Chart, way: Way, gap: Gap, person: str, now: datetime, say: Say) -> Closing:
    learner = chart.learner(way.learner) if way.learner else None
    names_them = "name" in way.reason.parameters
    whose = f"{learner.name or person}: " if learner and len(chart.learners) > 1 and not names_them else ""
    said = "" if way.reason == gap.reason else f"{whose}{words(way.reason)}{_steps(chart, way.rows)}"
    return Closing(said, CLOSERS[way.who], f"by {say(way.by)}" if way.by and way.by > now else "")


def _steps(chart: Chart, codes: tuple[str, ...]) -> str:
    """The first few steps or topics by name, and how many more."""
    items = [chart.checklist.by_code[code] for code in codes]
    titles = [one.title for one in items]
    if len(titles) > NAMED_STEPS:
        kind = "topics" if all(one.topic for one in items) else "steps"
        titles[NAMED_STEPS - 1 :] = [f"and {len(titles) - NAMED_STEPS + 1} more {kind}"]
    return f" ({'; '.join(titles)})" if titles else ""


def offered(chart: Chart, policy: Policy, now: datetime) -> Iterator[Kind]:
    """What this stay must or should have, and what a result may lean on."""
    at_home = chart.goes_to == "home"
    yield from (kind for kind in wanted(chart, policy, now) if kind.asked)
    yield from (kind for kind in CATALOGUE if kind.weight == COVER and (at_home or kind.facility))


def arranged_said(chart: Chart, kind: Kind, now: datetime, say: Say) -> str:
    """How far an arrangement is, with all that was said of it; "not recorded" where nobody has said anything."""
    known = newest(chart, kind.code, now)
    if known is None:
        return "not recorded"
    told = [f"{detail.words}: {said}" for detail in kind.details if (said := _plain(known, detail))]
    due = say(known.due_at) if known.due_at else ""
    return ", ".join(part for part in (ARRANGEMENT_STATES[known.state], due, *told, known.value) if part)


def by_said(written: Written, code: str, key: str, say: Say) -> str:
    """Such as "by a nurse, Mon 7 Dec 10:20"; "" where nobody has written anything."""
    name, at = written.get((code, key), ("", None))
    return f"by {name}, {say(at)}" if at else ""


def _plain(known: Arrangement, detail: Detail) -> str:
    said: Any = known.detail(detail.name)
    if said is None or said == "":
        return ""
    if isinstance(said, bool):
        return "yes" if said else "no"
    return _day(str(said)) if detail.kind == DAY else str(said)


def _day(said: str) -> str:
    """A day written 2026-05-18 as "Mon 18 May"; whatever else was written as it stands."""
    try:
        return spoken_date(date.fromisoformat(said))
    except ValueError:
        return said


def visit_said(visit: Visit) -> str:
    what = "to change the pouch" if visit.for_change else "to look only"
    state = ARRANGEMENT_STATES[visit.state]
    if visit.accepted_by and visit.state not in ("refused", "cancelled"):
        state = f"accepted by {visit.accepted_by}"
    return ", ".join(part for part in (what, visit.service, state) if part)


def appointment_said(chart: Chart, one: Appointment, person: str) -> str:
    who = " and ".join(each.name or person for each in chart.learners if each.key in one.learners)
    seen = {True: "a nurse signed off will see it", False: "nobody signed off will see it", None: ""}[one.may_teach]
    what = PROCEDURES[one.procedure].lower() + (", practice" if one.practice else "")
    return ", ".join(part for part in (what, who, one.aim, seen, APPOINTMENT_STATES[one.state], one.why) if part)
