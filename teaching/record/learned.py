"""Each stay's share in its unit's learning: worked out from the record, kept for those that have left.

A kept share is used only while the facts, policy and rules it came from still match. Running stays count as still
here, worked out anew; stays that are paused, stopped or cancelled add nothing.

The unit's figures move on when so many have left, and stand still between: else whoever looks before and after one
person leaves could subtract, and know how that person did.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from django.db import Error

from teaching.models import Stay, StayEvent, StayNow, Unit
from teaching.record.charts import Sheet, sheets_for
from teaching.record.places import policy_for
from teaching.record.trail import short_wait
from teaching.rules.assess import RULES_VERSION, assess
from teaching.rules.learned import learned
from teaching.rules.lines import Policy
from teaching.rules.readiness import READINESS_VERSION, ready

LEFT = "left"
HERE = ("opened", "moved", "resumed", "reopened")
DAY = timedelta(days=1)
AT_ONCE = 500  # stays read together: as many queries however many stays, without one endless query
EVENT = ("pk", "stay_id", "kind", "recorded_at")
READ = ("pk", "stay_id", "state", "revision", "learned", "learned_from")

Share = dict[str, Any]


@dataclass(frozen=True, slots=True)
class UnitShares:
    """The shares as they stood at `until` (UTC), when the last of the full groups had left; None before the first."""

    until: datetime | None
    shares: list[Share]


def shares(unit: Unit, now: datetime, together: int) -> UnitShares:
    """A share of each stay: outcome, days, month, result, sessions, tries (`analysis.unit_learning`).

    Of those who left only full groups of `together`, in the order in which their leaving was written down; with
    them those who were here when the newest group was full, by what was known then.
    """
    policy = policy_for(unit, now)
    rows = list(StayNow.objects.filter(unit=unit, state__in=(LEFT, *HERE)).values_list(*READ, named=True))
    events = list(StayEvent.objects.filter(unit=unit).order_by("pk").values_list(*EVENT, named=True))
    left, until = _full_groups(rows, events, together)
    if until is None:
        return UnitShares(None, [])
    kept = [row for row in left if row.learned_from == _made_from(row, policy)]
    anew = [row for row in left if row.learned_from != _made_from(row, policy)]
    found = [row.learned for row in kept] + [share for _, share in _worked_out(anew, policy)]
    others = {event.stay_id for event in events} - {row.stay_id for row in left}
    return UnitShares(until, found + _still_here(unit, rows, others, policy, until))


def keep_shares(unit: Unit, now: datetime) -> int:
    """Work out and keep the share of every stay that has left and has none that holds; how many there were."""
    policy = policy_for(unit, now)
    rows = StayNow.objects.filter(unit=unit, state=LEFT).values_list(*READ, named=True)
    anew = [row for row in rows if row.learned_from != _made_from(row, policy)]
    return sum(1 for _ in _worked_out(anew, policy))


def share_of_one_that_left(row: StayNow, sheet: Sheet, policy: Policy) -> dict[str, Any]:
    """The columns of its row of stay_now that keep the share of a stay that has left."""
    return {"learned": _share(sheet, policy), "learned_from": _made_from(row, policy)}


def _made_from(row: Any, policy: Policy) -> str:
    return f"{row.revision} {policy.version} rules {RULES_VERSION} readiness {READINESS_VERSION}"


def _full_groups(
    rows: Iterable[Any], events: Iterable[Any], together: int
) -> tuple[list[Any], datetime | None]:
    """(rows of those who left, when the last was noted as having left); who is beyond the last full group waits."""
    last = {event.stay_id: (event.pk, event.recorded_at) for event in events if event.kind == LEFT}
    left = sorted((row for row in rows if row.state == LEFT), key=lambda row: last[row.stay_id])
    full = left[: len(left) - len(left) % together]
    return full, max((last[row.stay_id][1] for row in full), default=None)


def _still_here(unit: Unit, rows: Iterable[Any], others: set[int], policy: Policy, until: datetime) -> list[Share]:
    """Of those who were being taught there at `until`, as it was known then: also of whoever has gone since.

    `others`: every stay that was ever there and is not counted among those who left. Asked table by table: joined,
    PostgreSQL took five seconds where its statistics were of other rows.
    """
    since = set(StayEvent.objects.filter(recorded_at__gt=until).values_list("stay_id", flat=True))
    perhaps = others & (since | {row.stay_id for row in rows if row.state != LEFT})
    sheets = sheets_for(list(Stay.objects.filter(pk__in=perhaps, recorded_at__lte=until)), as_known_at=until)
    here = [sheet for sheet in sheets if sheet.unit_id == unit.pk and sheet.chart.state in HERE]
    return [_share(sheet, policy, until) for sheet in here]


def _worked_out(rows: Sequence[Any], policy: Policy) -> Iterable[tuple[Any, Share]]:
    for first in range(0, len(rows), AT_ONCE):
        some = rows[first : first + AT_ONCE]
        stays = {stay.pk: stay for stay in Stay.objects.filter(pk__in=[row.stay_id for row in some])}
        sheets = sheets_for([stays[row.stay_id] for row in some])
        found = [(row, _share(sheet, policy)) for row, sheet in zip(some, sheets, strict=True)]
        _keep(found, policy)
        yield from found


def _share(sheet: Sheet, policy: Policy, until: datetime | None = None) -> Share:
    """Of a stay that has left; with `until`, of one that was still here then."""
    chart, ward = sheet.chart, sheet.chart.ward
    left_at = None if until else sheet.states[-1][0]
    until = until or sheet.states[-1][0]
    told = learned(chart, policy, until)
    reached = told.independent_at or until
    return {
        "outcome": "independent" if told.independent_at else LEFT if left_at else "",
        "days": (reached - chart.surgery_at) / DAY if chart.surgery_at and reached >= chart.surgery_at else None,
        "month": f"{ward.date(left_at):%Y-%m}" if left_at else "",
        "result": _result_at(sheet, policy, left_at) if left_at else "",
        "sessions": told.sessions,
        "tries": {code: [count, came] for code, count, came in told.tries},
    }


def _result_at(sheet: Sheet, policy: Policy, left_at: datetime) -> str:
    """What the record showed at the moment of leaving, whatever day had been planned."""
    chart = replace(sheet.chart, planned_at=left_at)
    return ready(chart, assess(chart, policy, left_at), policy, left_at).result


def _keep(found: Sequence[tuple[Any, Share]], policy: Policy) -> None:
    """Kept where nobody wrote meanwhile. A busy database is no reason to make a reader wait."""
    try:
        with short_wait():
            for row, share in found:
                StayNow.objects.filter(pk=row.pk, revision=row.revision).update(
                    learned=share, learned_from=_made_from(row, policy)
                )
    except Error:
        pass
