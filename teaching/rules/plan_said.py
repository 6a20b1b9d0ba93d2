"""The plan in a sentence: how often alone is still wanted, what is left for it, and what comes of it."""

from datetime import datetime

from teaching.rules.chances import NEVER, Opportunity, Worth
from teaching.rules.huddle import spoken_date
from teaching.rules.opportunities import TAUGHT_WHILE
from teaching.rules.reach import REACHED, Reach, Reaching
from teaching.rules.reasons import Reason
from teaching.rules.sweep import PAIRED, step
from teaching.rules.vocabulary import BODY_EVENTS

OFTEN = ("Nothing", "Once", "Twice")
NAMES = {
    "change": ("change", "changes"), "emptying": ("emptying", "emptyings"), "urine": ("emptying", "emptyings"),
    "swap": ("swap", "swaps"), "night": ("time for night drainage", "times for night drainage"),
}


def plan_said(reaching: Reaching, reach: Reach, planned: datetime | None) -> Reason:
    chart, now, local = reaching.chart, reaching.now, reaching.chart.ward.local
    if chart.state not in TAUGHT_WHILE:
        return Reason("plan-paused")
    if chart.goes_to == "facility":
        return Reason("to-facility")
    for result in REACHED:
        at = reach.first(result)
        if at is not None and reach.then(result):
            return Reason("plan-held", result=result) if at <= now else _by(reaching, result, at, planned)
    lost = next(((result, at) for result, at in reach.earliest if at is not None), None)
    if lost:
        return Reason("plan-lost", result=lost[0], at=local(lost[1]))
    changes = _changes(reaching)
    if reach.beyond:
        result, at = min(reach.beyond, key=lambda one: one[1])
        return Reason("plan-late", result=result, at=local(at), changes=changes)
    person = chart.learners[0].key
    for ways in reaching.ways.values():
        for event in ways.prospect.scene(person).meanwhile:
            return Reason("plan-while", state=BODY_EVENTS[event.code])
    return Reason("plan-none", until=local(reaching.planned), changes=changes)


def _by(reaching: Reaching, result: str, at: datetime, planned: datetime | None) -> Reason:
    """What the result waits for last: steps of the procedure shown then, or something to be said back."""
    local = reaching.chart.ward.local
    last = next((one for one in reaching.chances if one.at == at and wanted(reaching, one)), None)
    if last is None or last.procedure not in NAMES:
        return Reason("plan-say-back", result=result, at=local(at))
    until = planned or reaching.planned
    left = [one.at for one in reaching.chances if one.procedure == last.procedure and one.stoma == last.stoma
            and not one.practice and one.at <= until]
    often = OFTEN[wanted(reaching, last)]
    one, many = NAMES[last.procedure]
    if not left or last.practice:
        return Reason("plan-practice", often=often, result=result, at=local(at))
    if len(left) == 1:
        return Reason("plan-only", often=often, what=one, first=local(left[0]), result=result, at=local(at))
    return Reason("plan-several", often=often, left=len(left), what=many, first=local(left[0]), result=result,
                  at=local(at))


def wanted(reaching: Reaching, coming: Opportunity) -> int:
    """How often more alone the rows shown then are wanted at best, by the learner who is nearest; 0: all held."""
    prospect = reaching.ways[coming.stoma].prospect
    found = []
    for learner in coming.learners:
        rows = [code for code, row in prospect.rows.items() if row.essential and not row.item.topic
                and not row.item.looking and coming.shows(row.item)]
        often = [_often(reaching, coming.stoma, code, learner) for code in rows]
        if any(often):
            found.append(max(often))
    return min(found, default=0)


def _often(reaching: Reaching, stoma: str, code: str, learner: str) -> int:
    """One showing as good as any can be either makes the row held, or leaves one more to come."""
    prospect = reaching.ways[stoma].prospect
    if prospect.one(code, learner) & 1:
        return 0
    best = Worth(NEVER, NEVER, NEVER, True, True)
    tracks = prospect.tracks(code, learner)
    return 1 if any(step(track, rule, best)[0] == PAIRED for rule, track in tracks) else 1 + 1


def _changes(reaching: Reaching) -> str:
    """Such as "Thu 14 May 10:00 is the only change left"."""
    left = [one for one in reaching.chances
            if one.procedure == "change" and not one.practice and one.at <= reaching.planned]
    if not left:
        return "no change is left before then"
    first = reaching.chart.ward.local(left[0].at)
    said = f"{spoken_date(first.date())} {first:%H:%M}"
    return f"{said} is the only change left" if len(left) == 1 else f"{len(left)} changes are left, the next {said}"
