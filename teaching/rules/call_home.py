"""When somebody who has left is to be rung: a new ileostomy after a day and within two, everybody within three.

A call that was promised sooner, as on the sheet of leaving against the plan, takes the place of these.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.lines import Policy

HEARD = ("reached", "came-back")


@dataclass(frozen=True, slots=True)
class Try:
    """One row of what was heard after leaving: `kind` of vocabulary.AFTER_HOME."""

    kind: str
    at: datetime


@dataclass(frozen=True, slots=True)
class Call:
    """`since` and `by` (UTC): from when and until when to ring; `tries` so far that nobody answered."""

    since: datetime
    by: datetime
    tries: int

    def overdue(self, now: datetime) -> bool:
        return now > self.by


def promised_by(leaving: datetime, policy: Policy) -> datetime:
    """The latest moment at which a call may be promised to somebody who leaves against the plan."""
    return leaving + policy.early_call


def call_home(
    kinds: Iterable[str], left_at: datetime, heard: Sequence[Try], policy: Policy, now: datetime,
    promised: datetime | None = None,
) -> Call | None:
    """The call that is still owed; None once somebody was reached, came back, or left long ago.

    `kinds` are the stay's stomas: with an ileostomy among them the earlier bound holds.
    """
    if any(one.kind in HEARD for one in heard) or now > left_at + policy.calls_listed:
        return None
    early = "ileostomy" in kinds
    by = left_at + (policy.call_by if early else policy.first_contact)
    if promised and promised < by:
        return Call(since=left_at, by=promised, tries=len(heard))
    return Call(since=left_at + policy.call_from if early else left_at, by=by, tries=len(heard))
