"""A planned opportunity, and what a showing in it would be worth to a row, in whole ticks of time (plan).

A planned showing is taken as 06. Whether it confirms, stands with an earlier one or keeps a row in date is judged
as `occasions.py` judges a real one; here the same bounds are numbers, so that thousands can be compared.
"""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

from teaching.rules.facts import Item, Rating, Ward
from teaching.rules.lines import Policy
from teaching.rules.occasions import BY_DATE, CLOSE, by_registered, confirms, in_date_for, streak
from teaching.rules.scene import Scene
from teaching.rules.standing import TICK

EPOCH = datetime.min.replace(tzinfo=UTC)
ANY_TIME = 0
NEVER = (datetime.max.replace(tzinfo=UTC) - EPOCH) // TICK


@dataclass(frozen=True, slots=True)
class Opportunity:
    """One moment at which a procedure may be shown, each of its rows once, by any one learner who is there.

    `kind` says where it comes from: appointment, due, emptying, swap, evening, morning, or a move.
    `signed_off`: a signed-off or stoma nurse will see it; not known counts as no. `only`: some rows, empty for all.
    """

    at: datetime
    procedure: str
    stoma: str
    learners: frozenset[str]
    kind: str = "due"
    practice: bool = False
    signed_off: bool = False
    teacher: str = ""
    interpreter: bool = False
    only: frozenset[str] = frozenset()
    key: str = ""

    def shows(self, item: Item) -> bool:
        return item.procedure == self.procedure and (not self.only or item.code in self.only)


@dataclass(frozen=True, slots=True)
class Rule:
    """What a row asks of its showings. Rows with equal rule and history are judged once. `last_for` in ticks."""

    by_date: bool
    once: bool
    share: str
    any_nurse: bool
    last_for: int
    spacing: int
    practice_stands: bool = False

    def counts(self, practice: bool) -> bool:
        return not practice or self.share != "none"

    def restores(self, practice: bool) -> bool:
        return not practice or self.practice_stands or self.share == "all"

    def stands_at(self, at: int, practice: bool) -> int:
        """The moment it stands at for a later one. Of rows told apart by date, practice may share any date."""
        return ANY_TIME if practice and self.by_date else at

    def confirmed_by(self, rating: Rating, item: Item) -> bool:
        if self.practice_stands:
            return by_registered(rating.witness)
        return not rating.practice and confirms(rating, item)


@dataclass(frozen=True, slots=True)
class Worth:
    """One planned showing to one rule: an earlier one is on a separate occasion if it stands before `since`."""

    at: int
    since: int
    stands_at: int
    confirms: bool
    restores: bool


def ticks(moment: datetime) -> int:
    return (moment - EPOCH) // TICK


def rule_of(scene: Scene, item: Item) -> Rule:
    policy: Policy = scene.policy
    return Rule(
        by_date=item.procedure in BY_DATE,
        once=streak(item, policy) == 1,
        share=item.practice_share,
        any_nurse=item.procedure != "change" or item.code == CLOSE,
        last_for=in_date_for(item, scene.kit, policy) // TICK,
        spacing=policy.spacing // TICK,
    )


def worth(opportunity: Opportunity, rule: Rule, at: int, since: int) -> Worth | None:
    """None where a showing in it does not count at all. Whoever sees it is a registered nurse at the least."""
    practice = opportunity.practice
    if not rule.counts(practice):
        return None
    seen = rule.practice_stands or (not practice and (rule.any_nurse or opportunity.signed_off))
    return Worth(at, since, rule.stands_at(at, practice), seen, rule.restores(practice))


def apart_since(opportunity: Opportunity, rule: Rule, at: int, ward: Ward) -> int:
    """What stands before this moment is a separate occasion: another date or shift, or the spacing away."""
    if rule.by_date:
        return at + 1 if opportunity.practice else _clock(ward, ward.date(opportunity.at), time(), at)
    day, name = ward.shift(opportunity.at)
    starts = next(shift.starts for shift in ward.shifts if shift.name == name)
    return max(_clock(ward, day, starts, at), at - rule.spacing + 1)


def _clock(ward: Ward, day: date, clock: time, at: int) -> int:
    """When the ward's clock read this, in ticks; the first time, where it did so twice."""
    return min(ticks(datetime.combine(day, clock, ZoneInfo(ward.zone))), at)
