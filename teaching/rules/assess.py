"""All that the rules say of one stay at one moment. Pages, papers and exports show this and nothing else of the rules.

`assess` takes facts, a policy and a moment; it never asks the clock. Nothing it returns is ever a source.
"""

from dataclasses import dataclass
from datetime import datetime

from teaching.rules.cautions import call_first, running, wear_ends
from teaching.rules.checklist import applicable
from teaching.rules.due import NextChange, named, next_change
from teaching.rules.facts import Caution, Chart, Learner, Stoma
from teaching.rules.independence import stand
from teaching.rules.lines import Policy
from teaching.rules.reasons import Reason
from teaching.rules.scene import has_agreed, set_scene
from teaching.rules.standing import GAP, TICK, Standing, soonest
from teaching.rules.to_facility import asked_to_learn, asked_until, taken_over
from teaching.rules.topics import needs_interpreter
from teaching.rules.vocabulary import BODY_EVENTS

RULES_VERSION = "4"  # moves with any change of what `assess` answers
WAITS = ("call-first", "to-facility")
TAUGHT_WHILE = ("opened", "moved", "resumed", "reopened", "expected")
TOLD_OF = ("delirium", "intensive-care", "sedation", "sight-loss", "hand-loss", "no-stool-yet", "rod", "stents")
WORST_FIRST = (
    "not started", "learning", "slipped", "shown once", "shown, not yet confirmed", "show again", "independent",
    "not needed",
)


@dataclass(frozen=True, slots=True)
class Conclusion:
    """One learner, one stoma, one procedure: the state of its lowest essential row. `held` of `essential` rows.

    `begun`: something of it was written down here; a row may be held on what another procedure lends.
    """

    stoma: str
    learner: str
    procedure: str
    lowest: Standing
    held: int
    essential: int
    begun: bool

    @property
    def state(self) -> str:
        return "independent" if self.lowest.held else self.lowest.state


@dataclass(frozen=True, slots=True)
class Assessment:
    """`standings` of every rated row and topic, in the order of teaching; `aims` the few to teach next.

    `holds_until` (UTC): the earliest moment any of it would change with no new fact; None: never.
    """

    stay: str
    at: datetime
    standings: tuple[Standing, ...]
    conclusions: tuple[Conclusion, ...]
    changes: tuple[NextChange, ...]
    stands_out: tuple[Reason, ...]
    aims: tuple[Standing, ...]
    cautions: tuple[Caution, ...]
    holds_until: datetime | None
    policy_version: str
    rules_version: str = RULES_VERSION

    @property
    def waits(self) -> Reason | None:
        """Why nobody is to be taught now: somebody must be called first, or a facility's nurses take over."""
        return next((one for one in self.stands_out if one.code in WAITS), None)


def assess(chart: Chart, policy: Policy, now: datetime) -> Assessment:
    """What the record shows at `now` (UTC)."""
    learners = tuple(learner for learner in chart.learners if _learns(chart, learner, now))
    standings = tuple(
        standing
        for stoma in chart.stomas
        for learner in learners
        for standing in _of_learner(chart, policy, now, stoma, learner)
    )
    changes = tuple(next_change(chart, stoma, now) for stoma in chart.stomas)
    bounds = [change.due + TICK for change in changes if change.due and change.due >= now]
    return Assessment(
        stay=chart.stay,
        at=now,
        standings=standings,
        conclusions=_conclusions(standings),
        changes=changes,
        stands_out=_stands_out(chart, now, changes, standings),
        aims=_aims(chart, policy, now, standings),
        cautions=running(chart, now),
        holds_until=soonest(
            *bounds, *(one.holds_until for one in standings), *asked_until(chart, now),
            next((at for at in chart.moments if at > now), None),
        ),
        policy_version=policy.version,
    )


def _learns(chart: Chart, learner: Learner, now: datetime) -> bool:
    """The person, helpers who have agreed, and whoever was seen to take part."""
    return has_agreed(chart, learner, now) or any(one.learner == learner.key for one in chart.ratings)


def _of_learner(chart: Chart, policy: Policy, now: datetime, stoma: Stoma, learner: Learner) -> list[Standing]:
    scene = set_scene(chart, policy, now, stoma.key, learner.key)
    return [stand(scene, row) for row in applicable(chart, stoma, now) if row.rated]


def _conclusions(standings: tuple[Standing, ...]) -> tuple[Conclusion, ...]:
    """Looking is not asked of a learner in whose place an agreed helper may look (I13)."""
    looked_at = {(one.stoma, one.code) for one in standings if one.may_look}
    grouped: dict[tuple[str, str, str], list[Standing]] = {}
    for one in standings:
        if one.row.essential and (one.stoma, one.code) not in looked_at:
            grouped.setdefault((one.stoma, one.learner, one.row.item.procedure), []).append(one)
    return tuple(
        Conclusion(*key, min(rows, key=_worst), sum(row.held for row in rows), len(rows), any(row.last for row in rows))
        for key, rows in grouped.items()
    )


def _worst(standing: Standing) -> int:
    return WORST_FIRST.index(standing.state)


def _aims(chart: Chart, policy: Policy, now: datetime, standings: tuple[Standing, ...]) -> tuple[Standing, ...]:
    """What was lost first, then the hard minimum, then the order of the checklist; the person before a helper.

    None while somebody must be called first: then teaching waits. Bound for a facility only what somebody wants.
    """
    if chart.state not in TAUGHT_WHILE or call_first(chart, now):
        return ()
    looked_at = {(one.stoma, one.code) for one in standings if one.may_look}
    helpers = {learner.key for learner in chart.learners if learner.kind == "helper"}
    wanting = [
        one for one in standings
        if one.row.essential and not one.held and (one.stoma, one.code) not in looked_at
        and not any(reason.code == "while" for reason in one.reasons) and asked_to_learn(chart, one, now)
    ]
    wanting.sort(key=lambda one: (_rank(one), one.learner in helpers, one.row.item.position))
    return tuple(wanting[: policy.aims])


def _rank(standing: Standing) -> tuple[bool, bool]:
    lost = standing.state == "slipped" or (standing.state == "show again" and standing.lack == GAP)
    return not lost, not standing.row.item.hard_minimum


def _stands_out(
    chart: Chart, now: datetime, changes: tuple[NextChange, ...], standings: tuple[Standing, ...]
) -> tuple[Reason, ...]:
    first = call_first(chart, now)
    found = [Reason("call-first", sign="; ".join(one.words for one in first))] if first else []
    if chart.state not in TAUGHT_WHILE:
        found.append(Reason(chart.state))
    elif taken_over(chart, now):
        found.append(Reason("to-facility"))
    for event in sorted(chart.body_events, key=lambda one: (one.began, one.code)):
        if event.code in TOLD_OF and event.began <= now and (event.ended is None or now < event.ended):
            state = BODY_EVENTS[event.code]
            found.append(Reason("state", state=state[0].upper() + state[1:], at=chart.ward.local(event.began)))
    for change in changes:
        label = named(chart, chart.stoma(change.stoma))
        if change.unknown:
            found.append(change.unknown)
        elif change.due and now > change.due:
            found.append(Reason("overdue", stoma=label, at=chart.ward.local(change.due)))
        ends = wear_ends(chart, change.stoma, now)
        if ends and ends[-1][1] == "leak":
            found.append(Reason("last-leak", stoma=label, at=chart.ward.local(ends[-1][0])))
        steps = [one for one in standings if one.stoma == change.stoma and not one.row.item.topic]
        if standings and not steps and not change.unknown:
            found.append(Reason("no-steps", stoma=label))
    if any(needs_interpreter(chart, learner) for learner in chart.learners):
        found.append(Reason("interpreter"))
    return tuple(found)
