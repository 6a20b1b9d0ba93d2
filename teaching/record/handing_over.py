"""What a handover is built from: the chart with its assessment, who it is, and what is told beside it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from django.db.models import Max

from teaching.models import Account, ClinicianDetails, PersonDetails, Stay, StayNow, Unit
from teaching.record.charts import charts_for
from teaching.record.figures import begun_on
from teaching.record.outlook import kept_outlook, outlook_anew
from teaching.record.places import policy_for, settings_of
from teaching.rules.assess import Assessment, assess
from teaching.rules.board import ON_THE_BOARD
from teaching.rules.facts import Chart
from teaching.rules.handover.parts import Beside, Handover, Judged, Who
from teaching.rules.handover.sbar import handover
from teaching.rules.policy import Policy
from teaching.rules.readiness import Readiness, ready
from teaching.rules.spoken import LANGUAGES

AMENDS = ("correction", "retraction")


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
    return _known([StayNow.objects.select_related("stay", "unit").get(stay=stay)], now, plan_anew)[0]


def known_on(unit: Unit, now: datetime) -> list[Known]:
    """Everybody on the unit's board by bed, "2" before "10", in as many queries as for one. A plan that is not kept is
    left out: a whole shift does not wait for thirty.
    """
    kept = StayNow.objects.filter(unit=unit, state__in=ON_THE_BOARD).select_related("stay", "unit")
    return _known(sorted(kept, key=lambda row: (len(row.bed), row.bed)), now, plan_anew=False)


def _known(kept: Sequence[StayNow], now: datetime, plan_anew: bool) -> list[Known]:
    if not kept:
        return []
    unit = kept[0].unit
    policy, settings, stays = policy_for(unit, now), settings_of(unit), [row.stay for row in kept]
    checklist = str(settings.checklist.uid)
    keys = [stay.pk for stay in stays]
    languages, begun, amended = _languages(stays), begun_on(keys), _amended(keys)
    ring = tuple((one.get("label", ""), one.get("number", ""), one.get("hours", "")) for one in settings.phones)
    known = []
    for row, chart in zip(kept, _teachers_named(charts_for(stays)), strict=True):
        assessment = assess(chart, policy, now)
        who = Who(row.name, row.born, row.mrn, row.bed, languages.get(row.stay.person_id, ""))
        readiness = ready(chart, assessment, policy, now)
        planned = kept_outlook(row, policy, checklist, now)
        if planned is None and plan_anew:
            planned = outlook_anew(row, chart, assessment, readiness, policy, checklist, now)
        plan = (planned.plan,) if planned and planned.plan else ()
        beside = Beside(ring, tuple(begun[row.stay_id]), amended.get(row.stay_id), _judged(readiness), plan)
        known.append(Known(chart, assessment, policy, now, who, beside))
    return known


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


def _languages(stays: Sequence[Stay]) -> dict[int, str]:
    """By person, as a name; "" for a code that has none."""
    rows = PersonDetails.objects.filter(person__in=[stay.person_id for stay in stays]).order_by("number")
    return {person: LANGUAGES.get(code, "") for person, code in rows.values_list("person", "language")}


def _amended(keys: Sequence[int]) -> dict[int, datetime]:
    """By stay: when an account was last corrected or taken back."""
    rows = Account.objects.filter(stay__in=keys, kind__in=AMENDS).values_list("stay")
    return dict(rows.annotate(Max("recorded_at")))
