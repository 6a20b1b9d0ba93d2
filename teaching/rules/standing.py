"""Where a learner stands in one row: the answer of `independence`, with its reasons and how long it holds."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from teaching.rules.checklist import Row
from teaching.rules.facts import Rating
from teaching.rules.reasons import Reason

HELD = ("independent", "not needed")
GAP, MISSING = "gap", "missing"
TICK = timedelta(microseconds=1)  # the finest step of a recorded time: just after a bound that still counts


@dataclass(frozen=True, slots=True)
class Standing:
    """One learner in one row of one stoma at one moment.

    `state` is of vocabulary.INDEPENDENCE_STATES. `evidence` are the showings it rests on, newest last.
    `second_floor`: held when 05 is enough. `provisional`: on practice alone, until real stool comes.
    `may_look`: a helper who may do this looking row in the person's place.
    `lack` is "" when held, "gap" when something is proved wanting, "missing" when it is not known.
    `last` is the newest own entry of any kind. `reasons`: what is still needed, the most telling first.
    `holds_until` (UTC): the earliest moment the answer would change with no new fact; None: never.
    """

    stoma: str
    learner: str
    row: Row
    state: str
    evidence: tuple[Rating, ...] = ()
    second_floor: bool = False
    provisional: bool = False
    may_look: bool = False
    lack: str = ""
    last: Rating | None = None
    reasons: tuple[Reason, ...] = ()
    holds_until: datetime | None = None

    @property
    def code(self) -> str:
        return self.row.item.code

    @property
    def held(self) -> bool:
        return self.state in HELD

    @property
    def helper_only(self) -> bool:
        """Held only with someone to set out and clear up: they must be there at the hour it is used."""
        return self.second_floor and not self.held


def soonest(*moments: datetime | None) -> datetime | None:
    return min((moment for moment in moments if moment is not None), default=None)
