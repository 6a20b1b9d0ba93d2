"""What the discharge list shows of each stay: its readiness and the one thing that would help most.

Worked out when first asked for and kept in stay_now with all it came from; a save of a session never waits for it.
Used only while everything it came from still matches and its time is not up.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import Error

from teaching.models import Stay, StayNow, Unit
from teaching.record.charts import sheets_for
from teaching.record.places import policy_for, settings_of
from teaching.record.trail import short_wait
from teaching.rules.assess import RULES_VERSION, Assessment, assess
from teaching.rules.board import ON_THE_BOARD
from teaching.rules.facts import Chart
from teaching.rules.lines import Policy
from teaching.rules.outlook import OUTLOOK_VERSION, Outlook, outlook
from teaching.rules.readiness import READINESS_VERSION, Readiness, ready

READ = (
    "pk", "stay_id", "stay__uid", "bed", "name", "mrn", "state", "planned_at", "revision",
    "outlook", "outlook_from", "outlook_until",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class GoingHome:
    """One stay of the list. `planned_at` None: no day of leaving is planned."""

    stay: str
    bed: str
    name: str
    mrn: str
    paused: bool
    planned_at: datetime | None
    outlook: Outlook


def going_home(unit: Unit, now: datetime) -> list[GoingHome]:
    """Everybody on the unit, in no order. Four queries; rows that no longer hold are worked out in memory."""
    policy, checklist = policy_for(unit, now), str(settings_of(unit).checklist.uid)
    kept = list(StayNow.objects.filter(unit=unit, state__in=ON_THE_BOARD).values_list(*READ, named=True))
    made_from = {row.pk: _made_from(row.revision, policy, checklist) for row in kept}
    stale = [row for row in kept if row.outlook_from != made_from[row.pk] or _is_past(row.outlook_until, now)]
    afresh = _worked_out(stale, policy, now)
    if stale:
        _keep(stale, afresh, made_from)
    return [_row(row, afresh[row.pk][0] if row.pk in afresh else row.outlook) for row in kept]


def kept_outlook(row: StayNow, policy: Policy, checklist: str, now: datetime) -> Outlook | None:
    """What is kept of a stay, while it still holds."""
    made_from = _made_from(row.revision, policy, checklist)
    holds = row.outlook_from == made_from and not _is_past(row.outlook_until, now)
    return Outlook(**row.outlook) if holds else None


def outlook_anew(
    row: StayNow, chart: Chart, assessment: Assessment, readiness: Readiness, policy: Policy, checklist: str,
    now: datetime,
) -> Outlook:  # fmt: skip
    """Worked out from what was just read, and kept for the next reader."""
    said, until = outlook(chart, assessment, readiness, policy, now)
    _keep([row], {row.pk: (said.plain(), until)}, {row.pk: _made_from(row.revision, policy, checklist)})
    return said


def readiness_of(stay: Stay, now: datetime) -> tuple[Chart, Assessment, Readiness, Policy]:
    """One stay judged from the record itself."""
    unit = StayNow.objects.select_related("unit").get(stay=stay).unit
    policy = policy_for(unit, now)
    (sheet,) = sheets_for([stay])
    found = assess(sheet.chart, policy, now)
    return sheet.chart, found, ready(sheet.chart, found, policy, now), policy


def _made_from(revision: int, policy: Policy, checklist: str) -> str:
    versions = f"rules {RULES_VERSION} readiness {READINESS_VERSION} outlook {OUTLOOK_VERSION}"
    return f"{revision} {policy.version} {checklist} {versions}"


def _is_past(until: datetime | None, now: datetime) -> bool:
    return until is not None and now >= until


Worked = dict[int, tuple[dict[str, str], datetime | None]]


def _worked_out(stale: Sequence[Any], policy: Policy, now: datetime) -> Worked:
    """By the row's key: what it shows, and until when."""
    stays = {stay.pk: stay for stay in Stay.objects.filter(pk__in=[row.stay_id for row in stale])}
    sheets = sheets_for([stays[row.stay_id] for row in stale])
    found: Worked = {}
    for row, sheet in zip(stale, sheets, strict=True):
        assessment = assess(sheet.chart, policy, now)
        readiness = ready(sheet.chart, assessment, policy, now)
        said, until = outlook(sheet.chart, assessment, readiness, policy, now)
        found[row.pk] = (said.plain(), until)
    return found


def _keep(stale: Sequence[Any], afresh: Worked, made_from: Mapping[int, str]) -> None:
    """Kept for the next reader, where nobody wrote meanwhile. A busy database is no reason to make this one wait."""
    try:
        with short_wait():
            for row in stale:
                shows, until = afresh[row.pk]
                StayNow.objects.filter(pk=row.pk, revision=row.revision).update(
                    outlook=shows, outlook_from=made_from[row.pk], outlook_until=until
                )
    except Error:
        pass


def _row(row: Any, kept: Mapping[str, str]) -> GoingHome:
    return GoingHome(
        str(row.stay__uid), row.bed, row.name, row.mrn, row.state == "paused", row.planned_at, Outlook(**kept)
    )
