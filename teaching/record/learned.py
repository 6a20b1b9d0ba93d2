"""Each stay's share in its unit's learning: worked out from the record, kept for those that have left.

A kept share is used only while the facts, policy and rules it came from still match. Running stays count as still
here, worked out anew; stays that are paused, stopped or cancelled add nothing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from django.db import Error

from teaching.models import Stay, StayNow, Unit
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
READ = ("pk", "stay_id", "state", "revision", "learned", "learned_from")

Share = dict[str, Any]


def shares(unit: Unit, now: datetime) -> list[Share]:
    """A share of each stay of the unit: outcome, days, month, result, sessions, tries (`analysis.unit_learning`)."""
    policy = policy_for(unit, now)
    rows = list(StayNow.objects.filter(unit=unit, state__in=(LEFT, *HERE)).values_list(*READ, named=True))
    kept = [row for row in rows if row.state == LEFT and row.learned_from == _made_from(row, policy)]
    anew = [row for row in rows if row.state != LEFT or row.learned_from != _made_from(row, policy)]
    return [row.learned for row in kept] + [share for _, share in _worked_out(anew, policy, now)]


def keep_shares(unit: Unit, now: datetime) -> int:
    """Work out and keep the share of every stay that has left and has none that holds; how many there were."""
    policy = policy_for(unit, now)
    rows = StayNow.objects.filter(unit=unit, state=LEFT).values_list(*READ, named=True)
    anew = [row for row in rows if row.learned_from != _made_from(row, policy)]
    return sum(1 for _ in _worked_out(anew, policy, now))


def share_of_one_that_left(row: StayNow, sheet: Sheet, policy: Policy, now: datetime) -> dict[str, Any]:
    """The columns of its row of stay_now that keep the share of a stay that has left."""
    return {"learned": _share(sheet, LEFT, policy, now), "learned_from": _made_from(row, policy)}


def _made_from(row: Any, policy: Policy) -> str:
    return f"{row.revision} {policy.version} rules {RULES_VERSION} readiness {READINESS_VERSION}"


def _worked_out(rows: Sequence[Any], policy: Policy, now: datetime) -> Iterable[tuple[Any, Share]]:
    for first in range(0, len(rows), AT_ONCE):
        some = rows[first : first + AT_ONCE]
        stays = {stay.pk: stay for stay in Stay.objects.filter(pk__in=[row.stay_id for row in some])}
        sheets = sheets_for([stays[row.stay_id] for row in some])
        found = [(row, _share(sheet, row.state, policy, now)) for row, sheet in zip(some, sheets, strict=True)]
        _keep([pair for pair in found if pair[0].state == LEFT], policy)
        yield from found


def _share(sheet: Sheet, state: str, policy: Policy, now: datetime) -> Share:
    chart, ward = sheet.chart, sheet.chart.ward
    left_at = sheet.states[-1][0] if state == LEFT else None
    until = left_at or now
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
