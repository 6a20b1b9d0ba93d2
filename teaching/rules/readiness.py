"""Readiness at a moment, for a planned leaving (R1-R14): what the record shows, never a decision.

Proof of a gap gives not yet; else a missing fact gives cannot say; else the weakest cover used names the result.
No published cut-off exists for "ready to go home": these are rules that a clinician weighs.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.caps import blocking_cautions, short_wear
from teaching.rules.cover import HOUR, Span, next_hour
from teaching.rules.due import named
from teaching.rules.facts import Chart, Stoma
from teaching.rules.gaps import Gap, gaps_of_stoma, of_arrangement, of_caution, unknown_of_stoma
from teaching.rules.hands import Situation, situation_of
from teaching.rules.home import HELPERS, NURSING, PARTS, PERSON, TOGETHER, Lean, bare_parts, wanted_hours
from teaching.rules.in_place import Lacking, lacking, to_do
from teaching.rules.leaning import leans
from teaching.rules.lines import Policy
from teaching.rules.missing import missing_facts
from teaching.rules.reasons import Reason
from teaching.rules.standing import TICK, soonest

READINESS_VERSION = "4"  # moves with any change of what `ready` answers
SELF_CARING, WITH_HELPER, WITH_NURSING = "self-caring", "with a named helper", "with nursing care arranged"
NOT_YET, CANNOT_SAY = "not yet", "cannot say"
CARE_ARRANGED = "care arranged"
RESULTS = (SELF_CARING, WITH_HELPER, WITH_NURSING, CANNOT_SAY, NOT_YET)  # the weaker is the later
WAYS_TO_LEAN = (PERSON, HELPERS, TOGETHER, NURSING)
Bare = Mapping[Lean, tuple[str, ...]]  # the parts not covered, by whom is leaned on
LEANS = ((SELF_CARING, PERSON), (WITH_HELPER, TOGETHER), (WITH_NURSING, NURSING))


@dataclass(frozen=True, slots=True)
class Part:
    """Whether one part is covered by the person alone, by helpers alone, by both together, and with nursing care."""

    code: str
    person: bool
    helpers: bool
    together: bool
    nursing: bool


@dataclass(frozen=True, slots=True)
class OfStoma:
    """One stoma judged by itself. `due` (UTC): its first change after leaving; None: not known."""

    stoma: str
    label: str
    result: str
    due: datetime | None
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Cover:
    """For the drawing: of the hours of the span that are `wanted`, those covered, and by whom (key, hours).

    "service" among the keys is the leak service. Bits as in cover.py.
    """

    stoma: str
    part: str
    wanted: int
    by: tuple[tuple[str, int], ...]

    @property
    def bare(self) -> int:
        found = self.wanted
        for _, hours in self.by:
            found &= ~hours
        return found


@dataclass(frozen=True, slots=True)
class Readiness:
    """The answer. `gaps` are proved and empty unless the result is not yet; `missing` is what is not known.

    `because`: what a good result leans on. `to_do` never changes the result. `holds_until` (UTC): the earliest
    moment any of it would change with no new fact; None: never.
    """

    stay: str
    at: datetime
    leaving: datetime | None
    result: str
    words: str
    because: tuple[Reason, ...]
    gaps: tuple[Gap, ...]
    missing: tuple[Gap, ...]
    to_do: tuple[Lacking, ...]
    stomas: tuple[OfStoma, ...]
    span: Span
    nights: int
    cover: tuple[Cover, ...]
    holds_until: datetime | None
    policy_version: str
    readiness_version: str = READINESS_VERSION


def ready(chart: Chart, assessment: Assessment, policy: Policy, now: datetime) -> Readiness:
    """What the record shows of this leaving at `now` (UTC), on the standings of this assessment of the same chart."""
    situation = situation_of(chart, assessment, policy, now)
    caps = {stoma.key: short_wear(chart, stoma.key, policy, now) for stoma in chart.stomas}
    to_facility = chart.goes_to == "facility"
    gaps = [of_caution(one, now) for one in blocking_cautions(assessment.cautions)]
    missing = missing_facts(situation, assessment, to_facility)
    stomas = []
    for stoma in chart.stomas:
        capped = caps[stoma.key] is not None
        bare = {lean: bare_parts(situation, stoma.key, lean, capped=capped) for lean in WAYS_TO_LEAN}
        if to_facility:
            result = WITH_NURSING
        else:
            result, proved, unknown = _judge(situation, stoma, bare, capped)
            gaps += proved
            missing += unknown
        stomas.append(_of_stoma(situation, stoma, result, bare, capped))
    gaps += [of_arrangement(one, situation.leaving) for one in lacking(chart, policy, situation.leaving, now)]
    weakest = max((one.result for one in stomas), key=RESULTS.index, default=CANNOT_SAY)
    result = NOT_YET if gaps else CANNOT_SAY if missing else weakest
    return Readiness(
        stay=chart.stay, at=now, leaving=situation.leaving, result=result,
        words=CARE_ARRANGED if to_facility and result == WITH_NURSING else result,
        because=_because(situation, stomas, result, to_facility),
        gaps=tuple(gaps), missing=tuple(missing), to_do=to_do(chart, policy, now),
        stomas=tuple(stomas), span=situation.span, nights=situation.nights, cover=_cover(situation),
        holds_until=_holds_until(situation, assessment, caps),
        policy_version=policy.version,
    )


def _judge(situation: Situation, stoma: Stoma, bare: Bare, capped: bool) -> tuple[str, list[Gap], list[Gap]]:
    """R11, R12: the result of one stoma, its proved gaps, and what is not known and matters."""
    proved = bare_parts(situation, stoma.key, NURSING, best=True, capped=capped)
    if proved:
        knowing = bare_parts(situation, stoma.key, NURSING, best=True, knowing=True, capped=capped)
        return NOT_YET, gaps_of_stoma(situation, stoma, knowing, knowing != proved, best=True), []
    for result, lean in LEANS:
        if not bare[lean]:
            return result, [], []
    return CANNOT_SAY, [], unknown_of_stoma(situation, stoma, bare[NURSING])


def _of_stoma(situation: Situation, stoma: Stoma, result: str, bare: Bare, capped: bool) -> OfStoma:
    parts = tuple(
        Part(code, *(code not in bare[lean] for lean in WAYS_TO_LEAN)) for code in PARTS
        if (code != "wear" or capped) and (code != "night" or wanted_hours(situation, stoma.key, code))
    )
    return OfStoma(stoma.key, named(situation.chart, stoma), result, situation.dues[stoma.key], parts)


def _because(situation: Situation, stomas: list[OfStoma], result: str, to_facility: bool) -> tuple[Reason, ...]:
    """What a good result leans on, part by part: no more than it needs."""
    if result == SELF_CARING:
        return (Reason("all-alone"),)
    if result not in (WITH_HELPER, WITH_NURSING):
        return ()
    if to_facility:
        return (Reason("facility-accepts"),)
    found: list[Reason] = []
    for stoma, one in zip(situation.chart.stomas, stomas, strict=True):
        helped = [part.code for part in one.parts if part.together and not part.person]
        nursed = [part.code for part in one.parts if not part.together and not part.person]
        found += leans(situation, stoma, helped, nursed)
    return tuple(found)


def _cover(situation: Situation) -> tuple[Cover, ...]:
    found = []
    for stoma in situation.chart.stomas:
        hands = situation.hands(stoma.key, True, True, best=False)
        for part in ("pouch", "night", "leak"):
            wanted = wanted_hours(situation, stoma.key, part)
            if wanted:
                by = [(one.learner, one.at(getattr(one.skill, part))) for one in hands if one.skill.knows]
                if part == "leak":
                    by.append(("service", situation.service))
                found.append(Cover(stoma.key, part, wanted, tuple((key, hours) for key, hours in by if hours)))
    return tuple(found)


def _holds_until(
    situation: Situation, assessment: Assessment, caps: Mapping[str, tuple[datetime, datetime] | None]
) -> datetime | None:
    """Facts hold as long as the assessment does; here also leaving, the 48 hours, a pouch's day and what is overdue."""
    now, bounds = situation.now, [assessment.holds_until]
    bounds += [capped[1] for capped in caps.values() if capped]
    if situation.leaving is None:
        bounds.append(situation.span.begins + HOUR)
    elif situation.leaving >= now:
        bounds.append(situation.leaving + TICK)
    if any(change.due and change.due < now for change in assessment.changes):
        coming = next_hour(now)
        bounds.append(coming if coming > now else now + TICK)
    if situation.fresh_until and situation.fresh_until >= now:
        bounds.append(situation.fresh_until + TICK)
    return soonest(*bounds)
