"""A stay's facts written as a stay file: read back, it gives the same facts.

Written in full, except that sessions gather the ratings that share learner, event, time and witness.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import fields as fields_of
from datetime import datetime
from typing import Any

from teaching.exchange.stay_file import FORMAT, VERSION
from teaching.exchange.stay_times import written
from teaching.rules.facts import Appointment, Chart, Rating, Ward, Witness
from teaching.rules.spoken import LANGUAGES
from teaching.rules.vocabulary import OWN_LANGUAGE

Said = Callable[[datetime], str]
SESSION = ("stoma", "learner", "at", "event", "witness", "interpreter")
LISTS = (
    *("stomas", "kits", "learners", "consents", "care", "rechecks"),
    *("body_events", "findings", "totals", "cautions", "arrangements"),
)
# Of going home alone: `assess` does not judge by them, and the stay file does not carry them (docs/stay-file.md).
LEFT_OUT = {"week", "exceptions", "details"}
# Written even where empty: left out, the reader would take its own default.
KEPT_EMPTY = {"yes", "label", "name", "outlet", "words"}


def stay_file_of(chart: Chart, at: datetime | None = None) -> dict[str, Any]:
    """The file as JSON-ready data; `at` is the moment to judge it at. Recording times are not kept."""

    def said(moment: datetime) -> str:
        return written(moment, chart.ward.zone)

    head = {
        "format": FORMAT,
        "version": VERSION,
        "stay": chart.stay,
        "at": said(at) if at else None,
        "ward": _ward(chart.ward),
        "checklist": {"code": chart.checklist.code, "number": chart.checklist.number},
        "state": chart.state,
        "surgery": said(chart.surgery_at) if chart.surgery_at else None,
        "planned_home": said(chart.planned_at) if chart.planned_at else None,
        "goes_to": chart.goes_to if chart.goes_to != "home" else None,
        "taught_before": chart.taught_before,
        "language": _language(chart.language),
    }
    body = {name: [_plain(fact, said) for fact in getattr(chart, name)] for name in LISTS}
    body["appointments"] = [_booked(one, said) for one in chart.appointments]
    body["sessions"] = list(_sessions(chart, said))
    return _told({**head, **body})


def _booked(one: Appointment, said: Said) -> dict[str, Any]:
    """When, of what and for whom: all that `assess` asks of it."""
    told = {"key": one.key, "at": said(one.at), "state": one.state, "procedure": one.procedure}
    return told | _told({"learners": sorted(one.learners), "stoma": one.stoma})


def _language(code: str) -> str | None:
    """None where it is the ward's own, or nobody has said; one that has no code here is another language."""
    if code in ("", OWN_LANGUAGE):
        return None
    return code if code in LANGUAGES else "other"


def _ward(ward: Ward) -> dict[str, Any]:
    shifts = [
        {"name": one.name, "starts": one.starts.isoformat("minutes"), "ends": one.ends.isoformat("minutes")}
        for one in ward.shifts
    ]
    return {"zone": ward.zone, "leave_hour": ward.leave_hour, "shifts": shifts}


def _sessions(chart: Chart, said: Said) -> Iterable[dict[str, Any]]:
    """Sessions in the order their first rating stands; topics go with the session they were answered in."""
    found: dict[tuple, list[Rating]] = defaultdict(list)
    for rating in chart.ratings:
        found[tuple(getattr(rating, name) for name in SESSION)].append(rating)
    for shared, ratings in found.items():
        session = _told({name: _value(value, said) for name, value in zip(SESSION, shared, strict=True)})
        session["by"] = session.pop("witness")
        rows = {rating.code: chart.checklist.by_code[rating.code] for rating in ratings}
        topics = {one.code: _answer(one) for one in ratings if rows[one.code].topic}
        steps: dict[str, dict[str, Any]] = defaultdict(dict)
        for one in ratings:
            if not rows[one.code].topic:
                steps[rows[one.code].procedure][one.code] = _answer(one)
        if not steps:
            yield {**session, "topics": topics}
        for index, (procedure, answers) in enumerate(steps.items()):
            yield {**session, "procedure": procedure, "ratings": answers} | _told(
                {"topics": {} if index else topics}
            )


def _answer(rating: Rating) -> Any:
    more = _told(
        {
            "practice": rating.practice,
            "reported": rating.reported,
            "reason": rating.reason,
            "aids": sorted(rating.aids),
            "note": rating.note,
        }
    )
    return {"answer": rating.answer, **more} if more else rating.answer


def _plain(fact: Any, said: Said) -> dict[str, Any]:
    """One fact as an object with the keys of its own columns, `by` for its witness."""
    names = [column.name for column in fields_of(fact) if column.name not in LEFT_OUT]
    told = {name: _value(getattr(fact, name), said) for name in names}
    if "skin" in told:
        told["skin"] = dict(fact.skin)
    return {"by" if name == "witness" else name: value for name, value in _told(told).items()}


def _value(value: Any, said: Said) -> Any:
    if isinstance(value, datetime):
        return said(value)
    if isinstance(value, frozenset):
        return sorted(value)
    if isinstance(value, Witness):
        told = {name: getattr(value, name) for name in ("name", "grade", "signed_off", "cosigned_by")}
        return {name: part for name, part in told.items() if part}
    return value


def _told(values: dict[str, Any]) -> dict[str, Any]:
    """Without what says nothing: None, false, empty."""
    return {name: value for name, value in values.items() if name in KEPT_EMPTY or not _empty(value)}


def _empty(value: Any) -> bool:
    return value is None or value is False or (isinstance(value, str | list | dict) and not value)
