"""What a handover is built from: the chart with its assessment, who it is, and what is told beside it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from teaching.models import ClinicianDetails, Stay, StayNow, Unit
from teaching.record.charts import Sheet, sheets_for
from teaching.record.figures import begun_on
from teaching.record.outlook import kept_outlook, outlook_anew
from teaching.record.places import policy_for
from teaching.record.prepared import read
from teaching.rules.assess import Assessment, assess
from teaching.rules.board import ON_THE_BOARD
from teaching.rules.facts import Chart
from teaching.rules.handover.parts import Beside, Handover, Judged, Who
from teaching.rules.handover.sbar import handover
from teaching.rules.policy import Policy
from teaching.rules.readiness import Readiness, ready
from teaching.rules.spoken import LANGUAGES

KEPT = (
    "pk", "stay_id", "unit_id", "bed", "name", "born", "mrn", "revision", "outlook", "outlook_from", "outlook_until",
)  # fmt: skip


@dataclass(frozen=True)
class Known:
    """One person at one moment (UTC), as papers and pages of handing over read it."""

    chart: Chart
    assessment: Assessment
    policy: Policy
    now: datetime
    who: Who
    beside: Beside

    @property
    def handover(self) -> Handover:
        return handover(self.chart, self.assessment, self.policy, self.now, self.who, self.beside)


def known_of(stay: Stay, now: datetime, plan_anew: bool = False) -> Known:
    """`plan_anew`: where no plan is kept that still holds, it is worked out now."""
    (kept,) = read(StayNow, KEPT, "stay_id", [stay.pk])
    return _known(Unit(pk=kept.unit_id), [stay], [kept], now, plan_anew)[0]


def known_on(unit: Unit, now: datetime) -> list[Known]:
    """Everybody on the unit's board by bed, "2" before "10", in as many queries as for one. A plan that is not kept is
    left out: a whole shift does not wait for thirty.
    """
    found = StayNow.objects.filter(unit=unit, state__in=ON_THE_BOARD).select_related("stay")
    kept = sorted(found, key=lambda row: (len(row.bed), row.bed))
    return _known(unit, [row.stay for row in kept], kept, now, plan_anew=False)


def _known(unit: Unit, stays: Sequence[Stay], kept: Sequence[Any], now: datetime, plan_anew: bool) -> list[Known]:
    policy, begun, sheets = policy_for(unit, now), begun_on([stay.pk for stay in stays]), sheets_for(stays)
    known = []
    for row, sheet, chart in zip(kept, sheets, _teachers_named([sheet.chart for sheet in sheets]), strict=True):
        assessment = assess(chart, policy, now)
        who = Who(row.name, row.born, row.mrn, row.bed, LANGUAGES.get(chart.language, ""))
        readiness = ready(chart, assessment, policy, now)
        planned = kept_outlook(row, policy, sheet.checklist_uid, now)
        if planned is None and plan_anew:
            planned = outlook_anew(row, chart, assessment, readiness, policy, sheet.checklist_uid, now)
        plan = (planned.plan,) if planned and planned.plan else ()
        beside = Beside(_ring(sheet), tuple(begun[row.stay_id]), sheet.amended, _judged(readiness), plan)
        known.append(Known(chart, assessment, policy, now, who, beside))
    return known


def _ring(sheet: Sheet) -> tuple[tuple[str, str, str], ...]:
    return tuple((one.get("label", ""), one.get("number", ""), one.get("hours", "")) for one in sheet.phones)


def _teachers_named(charts: Sequence[Chart]) -> list[Chart]:
    """The same charts with each booked teacher by name: a handover is read aloud."""
    keys = {one.teacher for chart in charts for one in chart.appointments if one.teacher}
    if not keys:
        return list(charts)
    rows = ClinicianDetails.objects.filter(clinician__uid__in=keys).order_by("number")
    names = {str(uid): name for uid, name in rows.values_list("clinician__uid", "name")}
    return [
        replace(chart, appointments=tuple(
            replace(one, teacher=names.get(one.teacher, one.teacher)) for one in chart.appointments
        ))
        for chart in charts
    ]  # fmt: skip


def _judged(found: Readiness) -> Judged:
    """Proved gaps before what is missing: a result never stands without what would change it."""
    return Judged(found.words, tuple(gap.reason for gap in (*found.gaps, *found.missing)))
