"""Kit to take along, in sentences: how many for how long, how many of them spare, and the most while the size changes.

Counted by `fit.supplies` from the lines of the policy; what goes along is the nurse's and the person's to settle.
"""

from collections.abc import Iterator
from datetime import datetime

from teaching.rules.arrangements import SUPPLIES
from teaching.rules.checklist import kit_at
from teaching.rules.cover import DAY, HOUR
from teaching.rules.facts import Chart, Stoma
from teaching.rules.fit import changing, supplies, worn_for
from teaching.rules.gaps import which
from teaching.rules.in_place import newest
from teaching.rules.lines import Policy
from teaching.rules.reasons import Reason

POUCHES, KITS = "pouches", "kits for a change"


def take_along(chart: Chart, policy: Policy, now: datetime) -> Iterator[Reason]:
    """Of each stoma that wears something; nothing is said of one whose pouch nobody has written down."""
    days = days_to_last(chart, now)
    for stoma in chart.stomas:
        if kit_at(chart, stoma.key, now):
            yield from _of_stoma(chart, stoma, days, policy, now)


def days_to_last(chart: Chart, now: datetime) -> int | None:
    """From the planned day of leaving to the first delivery, by the ward's calendar; None where one is not written."""
    said = newest(chart, SUPPLIES, now)
    if said is None or said.due_at is None or chart.planned_at is None:
        return None
    return max(0, (chart.ward.date(said.due_at) - chart.ward.date(chart.planned_at)) // DAY)


def _of_stoma(chart: Chart, stoma: Stoma, days: int | None, policy: Policy, now: datetime) -> Iterator[Reason]:
    kit = kit_at(chart, stoma.key, now)
    still = changing(stoma, now, policy)
    found = supplies(days, kit, still, policy)
    closed = kit is not None and kit.closure == "closed"
    yield Reason(
        "take-capped" if found.capped else "take-unsaid" if days is None else "take-until",
        pouches=found.pouches, what=KITS if closed else POUCHES, stoma=which(chart, stoma),
        worn=found.pouches - found.spares, days=found.days, wanted=days or 0, spares=found.spares,
        hours=worn_for(kit, policy) // HOUR,
    )  # fmt: skip
    if still and not found.capped:
        yield Reason("take-cap", days=policy.supplies_cap // DAY)
    if closed:
        yield Reason("take-closed")
