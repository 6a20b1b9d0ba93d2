"""Kit to take along, in sentences: how many for how long, how many of them spare, and the most while the size changes.

Counted by `fit.supplies` from the lines of the policy; what goes along is the nurse's and the person's to settle.
"""

from collections.abc import Iterator
from datetime import datetime

from teaching.rules.arrangements import SUPPLIES
from teaching.rules.checklist import kit_at
from teaching.rules.cover import DAY, HOUR
from teaching.rules.facts import Chart, Kit, Stoma
from teaching.rules.fit import changing, supplies, worn_for
from teaching.rules.gaps import which
from teaching.rules.in_place import MADE, newest
from teaching.rules.lines import Policy
from teaching.rules.reasons import Reason

POUCHES, KITS = "pouches", "kits for a change"


def take_along(chart: Chart, policy: Policy, now: datetime) -> Iterator[Reason]:
    """Of each stoma that wears something; nothing is said of one whose pouch nobody has written down."""
    days = days_to_last(chart, now)
    worn = [one for one in chart.stomas if kit_at(chart, one.key, now)]
    counted = [_of_stoma(chart, one, days, policy, now) for one in worn]
    yield from counted
    if any(changing(one, now, policy) and said.code != "take-capped" for one, said in zip(worn, counted, strict=True)):
        yield Reason("take-cap", days=policy.supplies_cap // DAY)
    if any(_closed(kit_at(chart, one.key, now)) for one in worn):
        yield Reason("take-closed")


def days_to_last(chart: Chart, now: datetime) -> int | None:
    """From the planned day of leaving to the first delivery, by the ward's calendar.

    None where that cannot be said: no delivery is made with its day, or no leaving is planned that is still ahead.
    """
    said = newest(chart, SUPPLIES, now)
    if said is None or said.state != MADE or said.due_at is None or chart.planned_at is None or chart.planned_at < now:
        return None
    return max(0, (chart.ward.date(said.due_at) - chart.ward.date(chart.planned_at)) // DAY)


def _of_stoma(chart: Chart, stoma: Stoma, days: int | None, policy: Policy, now: datetime) -> Reason:
    kit = kit_at(chart, stoma.key, now)
    found = supplies(days, kit, changing(stoma, now, policy), policy)
    return Reason(
        "take-capped" if found.capped else "take-unsaid" if days is None else "take-until",
        pouches=found.pouches, what=KITS if _closed(kit) else POUCHES, stoma=which(chart, stoma),
        worn=found.pouches - found.spares, days=found.days, wanted=days or 0, spares=found.spares,
        hours=worn_for(kit, policy) // HOUR,
    )  # fmt: skip


def _closed(kit: Kit | None) -> bool:
    return kit is not None and kit.closure == "closed"
