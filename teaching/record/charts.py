"""The one door out: the rows of a stay as the facts that the rules are told, now or as known at an earlier moment."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, time
from operator import attrgetter
from typing import Any

from teaching.models import ChecklistVersion, Stay
from teaching.record.arranged import arranged
from teaching.record.chart_rows import Rows
from teaching.record.checklists import checklist_of
from teaching.record.seen import Seen, mm
from teaching.rules.facts import (
    BodyEvent,
    Caution,
    Chart,
    Consent,
    Kit,
    Learner,
    Nothing,
    OutputTotal,
    Shift,
    Stoma,
    Ward,
)

PLACE_ONLY = "moved"  # changes where somebody is, not whether teaching goes on
TAKES_BACK = "reopened"  # may only follow an ending
AMENDS = ("correction", "retraction")


@dataclass(frozen=True)
class Sheet:
    """A chart with what a verb or a handover needs beside it. `states` is (from, state), oldest first, by number.

    `phones` are the unit's, as it set them; `amended`: when an account was last corrected or taken back.
    """

    chart: Chart
    unit_id: int
    checklist_id: int
    checklist_uid: str
    states: tuple[tuple[datetime, str], ...]
    phones: Sequence[dict[str, str]]
    amended: datetime | None

    def state_at(self, at: datetime) -> str:
        """The state the stay was in; before it opened, the first one."""
        begun = [state for since, state in self.states if since <= at]
        return begun[-1] if begun else self.states[0][1]


def chart_for(stay: Stay, as_known_at: datetime | None = None) -> Chart:
    """All facts of a stay. With `as_known_at` (UTC): only what had been recorded by then."""
    return charts_for([stay], as_known_at)[0]


def charts_for(stays: Sequence[Stay], as_known_at: datetime | None = None) -> list[Chart]:
    """The charts in the order of the stays, in as many queries as one. LookupError: not yet recorded at that moment."""
    return [sheet.chart for sheet in sheets_for(stays, as_known_at)]


def sheet_for(stay: Stay) -> Sheet:
    return sheets_for([stay])[0]


def sheets_for(stays: Sequence[Stay], as_known_at: datetime | None = None) -> list[Sheet]:
    if not stays:
        return []
    rows = Rows(stays, as_known_at)
    return [_sheet(rows, stay.pk) for stay in stays]


def _sheet(rows: Rows, key: int) -> Sheet:
    events = rows.parts(rows.stays[key], "events__")
    if not events:
        raise LookupError(f"Stay {key} was not on record at {rows.known_at}.")
    setting = rows.settings[events[-1].events__unit_id]
    states = _states((row.events__happened_at, row.events__kind) for row in events)
    stomas = {row.pk: str(row.uid) for row in rows.stomas[key]}
    learners = {row.pk: str(row.uid) for row in rows.learners[key]}
    version = ChecklistVersion(pk=setting.checklist_id, uid=setting.checklist__uid)
    details = rows.parts(rows.stays[key], "details__")[-1]
    planned = max(rows.planned[key], key=attrgetter("number"), default=None)
    seen = Seen(rows, key, stomas, learners)
    chart = Chart(
        stay=str(details.uid),
        ward=_ward(details.zone, setting),
        checklist=checklist_of(version),
        stomas=tuple(_stomas(rows.stomas[key])),
        learners=tuple(_learners(rows, rows.learners[key])),
        kits=tuple(_kits(rows, rows.stomas[key])),
        ratings=tuple(seen.ratings),
        care=tuple(seen.care),
        rechecks=tuple(seen.rechecks),
        consents=tuple(_consents(rows, rows.learners[key])),
        body_events=tuple(_body_events(rows.body[key], stomas)),
        findings=tuple(seen.findings),
        totals=tuple(_totals(rows.totals[key], stomas)),
        cautions=tuple(_cautions(rows, rows.cautions[key], stomas)),
        nothing=tuple(_nothing(rows, rows.stomas[key])),
        **arranged(rows.arrangements[key]),
        state=states[-1][1],
        surgery_at=details.details__surgery_at,
        planned_at=planned.at if planned else None,
        goes_to=planned.goes_to if planned else "home",
        taught_before=details.details__taught_before,
        language=_language(rows, key),
        known_at=rows.known_at,
        revision=details.now__revision or 0,
    )
    amended = max((row.recorded_at for row in rows.accounts[key] if row.kind in AMENDS), default=None)
    checklist = setting.checklist_id, str(setting.checklist__uid)
    return Sheet(chart, setting.unit_id, *checklist, tuple(states), setting.phones, amended)


def _language(rows: Rows, key: int) -> str:
    """As newly as it was known then; of a person who became known only later, as it was first told."""
    first = min(rows.stays[key], key=lambda row: row.person__details__number)
    return (rows.parts(rows.stays[key], "person__details__") or [first])[-1].person__details__language


def _states(told: Iterable[tuple[datetime, str]]) -> list[tuple[datetime, str]]:
    """Since when the stay was in which state. What a reopening took back (left, stopped, cancelled) never was."""
    found: list[tuple[datetime, str]] = []
    for since, kind in told:
        if kind == TAKES_BACK and found:
            found.pop()
        if kind != PLACE_ONLY:
            found.append((since, kind))
    return found


def _ward(zone: str, setting: Any) -> Ward:
    shifts = [
        Shift(each["name"], time.fromisoformat(each["starts"]), time.fromisoformat(each["ends"]))
        for each in setting.shifts
    ]
    return Ward(zone, tuple(shifts), setting.leave_hour)


def _grouped(rows: Iterable[Any]) -> list[list[Any]]:
    """Joined rows by their parent."""
    found = defaultdict(list)
    for row in rows:
        found[row.pk].append(row)
    return list(found.values())


def _stomas(rows: Iterable[Any]) -> Iterable[Stoma]:
    for row, *_ in _grouped(rows):
        yield Stoma(str(row.uid), row.label, row.kind, row.construction, row.side, row.formed_at)


def _kits(rows: Rows, joined: Iterable[Any]) -> Iterable[Kit]:
    """Where two kits are said to be worn from the same moment, the newer row is the one that counts."""
    for group in _grouped(joined):
        worn = {row.kits__happened_at: row for row in rows.parts(group, "kits__")}
        for since, row in worn.items():
            yield Kit(
                stoma=str(row.uid), since=since, pieces=row.kits__pieces, shape=row.kits__shape,
                opening=row.kits__opening, closure=row.kits__closure, outlet=row.kits__outlet,
                items=frozenset(row.kits__items), interval_hours=row.kits__interval_hours,
                pre_cut_mm=mm(row.kits__pre_cut_mm), cut_limit_mm=mm(row.kits__cut_limit_mm),
            )


def _learners(rows: Rows, joined: Iterable[Any]) -> Iterable[Learner]:
    for group in _grouped(joined):
        row = group[0]
        needs = {each.needs__code: each.needs__present for each in rows.parts(group, "needs__")}
        hours = rows.parts(group, "hours__")
        yield Learner(
            key=str(row.uid), kind=row.kind, name=row.name, relation=row.relation,
            needs=frozenset(code for code, present in needs.items() if present),
            lives_in=bool(hours and hours[-1].hours__lives_in),
            minutes_away=hours[-1].hours__minutes_away if hours else None,
            week=hours[-1].hours__week if hours else "",
            exceptions=tuple(_exceptions(hours[-1].hours__exceptions)) if hours else (),
        )


def _exceptions(told: Iterable[dict[str, Any]]) -> Iterable[tuple[datetime, datetime, bool]]:
    for each in told:
        yield datetime.fromisoformat(each["from"]), datetime.fromisoformat(each["to"]), bool(each["there"])


def _nothing(rows: Rows, joined: Iterable[Any]) -> Iterable[Nothing]:
    for group in _grouped(joined):
        for row in rows.parts(group, "nothing__")[-1:]:
            yield Nothing(str(row.uid), row.nothing__since_at, row.nothing__recorded_at)


def _consents(rows: Rows, joined: Iterable[Any]) -> Iterable[Consent]:
    """The newest recorded of each kind: a rule cannot tell it from the claimed time alone."""
    for group in _grouped(joined):
        newest = {row.consents__whose: row for row in rows.parts(group, "consents__")}
        for whose, row in newest.items():
            yield Consent(str(row.uid), whose, row.consents__yes, row.consents__at)


def _body_events(found: Sequence[Any], stomas: dict[int, str]) -> Iterable[BodyEvent]:
    """Each beginning with the end that came next; a second beginning before it adds nothing new."""
    spans: dict[tuple[str, str], list[BodyEvent]] = defaultdict(list)
    for row in sorted(found, key=lambda each: (each.happened_at, each.change == "ended", each.pk)):
        stoma = stomas.get(row.stoma_id, "")
        known = spans[row.code, stoma]
        running = bool(known) and known[-1].ended is None
        if row.change == "began":
            known.append(BodyEvent(row.code, row.happened_at, None, stoma))
        elif running:
            known[-1] = BodyEvent(row.code, known[-1].began, row.happened_at, stoma)
    return [event for known in spans.values() for event in known]


def _cautions(rows: Rows, joined: Iterable[Any], stomas: dict[int, str]) -> Iterable[Caution]:
    for group in _grouped(joined):
        row = group[0]
        steps = {step.steps__kind: step for step in rows.parts(group, "steps__")}
        told, settled = steps.get("told"), steps.get("settled")
        yield Caution(
            key=str(row.uid), sign=row.sign, list=row.list, words=row.words, at=row.at,
            stoma=stomas.get(row.stoma_id, ""),
            told=told.steps__happened_at if told else None,
            told_whom=told.steps__whom if told else "",
            answer=told.steps__answer if told else "",
            look_again_at=told.steps__look_again_at if told else None,
            settled=settled.steps__happened_at if settled else None,
            withdrawn="withdrawn" in steps,
        )


def _totals(found: Sequence[Any], stomas: dict[int, str]) -> Iterable[OutputTotal]:
    newest = {(row.stoma_id, row.until_at): row for row in sorted(found, key=attrgetter("number"))}
    for row in newest.values():
        yield OutputTotal(stomas[row.stoma_id], row.until_at, row.ml)
