"""The derived row of a stay: rewritten by each verb in its own transaction, used by a board only while it holds."""

from collections import defaultdict
from collections.abc import Sequence
from datetime import datetime
from typing import Any

from django.utils import timezone

from teaching.models import Draft, PersonDetails, Stay, StayEvent, StayNow, Unit
from teaching.record.accounts import Written
from teaching.record.added import with_added
from teaching.record.charts import Sheet, chart_for, sheet_for, sheets_for
from teaching.record.places import policy_for, settings_of
from teaching.record.prepared import read
from teaching.record.summary import next_due, row_of, summary
from teaching.rules.assess import RULES_VERSION, Assessment, assess
from teaching.rules.board import ON_THE_BOARD, Begun, BoardRow
from teaching.rules.facts import Chart
from teaching.rules.policy import Policy

READ = (
    "stay_id", "stay__uid", "bed", "name", "mrn", "state", "planned_at", "revision", "assessed", "assessed_revision",
    "policy_version", "checklist_version", "rules_version", "holds_until",
)  # fmt: skip
DRAFT = ("pk", "stay_id", "owner__details__number", "owner__details__name", "begun_at")


def refresh(stay: Stay, *, moved_on: bool = True) -> None:
    """Work the stay's row out again from the record. `moved_on`: the facts have changed, so the revision moves."""
    kept = StayNow.objects.select_related("unit").get(stay=stay)
    columns = worked_out(stay, timezone.now())
    _rewrite(kept, columns, kept.revision + moved_on)


def refresh_with(kept: StayNow, sheet: Sheet, written: Sequence[Written], now: datetime) -> None:
    """The same after sessions alone: their facts are added to the chart that was just read."""
    chart = with_added(sheet.chart, written, written[0].witness_name)
    _rewrite(kept, assessed(chart, sheet, policy_for(kept.unit, now), now), kept.revision + 1)


def worked_out(stay: Stay, now: datetime) -> dict[str, Any]:
    """Every column of stay_now but the revision, from the record alone."""
    sheet = sheet_for(stay)
    event = StayEvent.objects.filter(stay=stay).select_related("unit").order_by("-number")[0]
    person = PersonDetails.objects.filter(person=stay.person_id).order_by("-number")[0]
    return {
        "unit": event.unit,
        "state": sheet.chart.state,
        "bed": event.bed,
        "name": f"{person.given_names} {person.family_name}",
        "born": person.born,
        "mrn": person.mrn,
        **assessed(sheet.chart, sheet, policy_for(event.unit, now), now),
    }


def assessed(chart: Chart, sheet: Sheet, policy: Policy, now: datetime) -> dict[str, Any]:
    found = assess(chart, policy, now)
    return {
        "planned_at": chart.planned_at,
        "next_due_at": next_due(found),
        "assessed": summary(chart, found),
        "policy_version": policy.version,
        "checklist_version": sheet.checklist_uid,
        "rules_version": RULES_VERSION,
        "holds_until": found.holds_until,
    }


def _rewrite(kept: StayNow, columns: dict[str, Any], revision: int) -> None:
    StayNow.objects.filter(pk=kept.pk).update(**columns, revision=revision, assessed_revision=revision)


def standing(stay: Stay, now: datetime) -> Assessment:
    """What the rules say of one stay now, from the record itself."""
    unit = StayNow.objects.select_related("unit").get(stay=stay).unit
    return assess(chart_for(stay), policy_for(unit, now), now)


def board(unit: Unit, now: datetime) -> list[BoardRow]:
    """Everybody on a unit, in four queries; rows that no longer hold are worked out in memory, in twelve more."""
    policy, checklist = policy_for(unit, now), str(settings_of(unit).checklist.uid)
    kept = list(
        StayNow.objects.filter(unit=unit, state__in=ON_THE_BOARD).order_by("bed").values_list(*READ, named=True)
    )
    stale = [row.stay_id for row in kept if not _holds(row, policy, checklist, now)]
    afresh = _worked_out_now(stale, policy, now) if stale else {}
    begun = begun_on([row.stay_id for row in kept])
    return [row_of(row, afresh.get(row.stay_id) or row.assessed, begun[row.stay_id]) for row in kept]


def _holds(row: Any, policy: Policy, checklist: str, now: datetime) -> bool:
    """A kept summary is used only if everything it came from still matches and its time is not up."""
    made_from = (row.assessed_revision, row.policy_version, row.checklist_version, row.rules_version)
    return made_from == (row.revision, policy.version, checklist, RULES_VERSION) and (
        row.holds_until is None or now < row.holds_until
    )


def _worked_out_now(keys: Sequence[int], policy: Policy, now: datetime) -> dict[int, dict[str, Any]]:
    stays = list(Stay.objects.filter(pk__in=keys))
    return {
        stay.pk: summary(sheet.chart, assess(sheet.chart, policy, now))
        for stay, sheet in zip(stays, sheets_for(stays), strict=True)
    }


def begun_on(keys: Sequence[int]) -> dict[int, list[Begun]]:
    """Sessions begun and not signed, by whom, since when."""
    found: dict[int, list[Begun]] = defaultdict(list)
    rows = read(Draft, DRAFT, "stay_id", keys, state="open")
    rows.sort(key=lambda row: (row.begun_at, row.owner__details__number))
    for row in {row.pk: row for row in rows}.values():
        found[row.stay_id].append(Begun(row.owner__details__name, row.begun_at))
    return found
