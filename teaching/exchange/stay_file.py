"""One stay as a JSON file that a person can write by hand, read into the facts the rules are told.

The format is our own; docs/stay-file.md documents every key, docs/example-stay.json is a whole example.
A wrong file is refused whole: WrongFile lists every fault by its path.
"""

from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from teaching.exchange.checklist_file import FIXTURE, load_checklist
from teaching.exchange.stay_fields import Book, Fields
from teaching.exchange.stay_people import (
    read_body_events,
    read_consents,
    read_kits,
    read_learners,
    read_stomas,
    read_ward,
)
from teaching.exchange.stay_seen import (
    read_appointments,
    read_arrangements,
    read_cautions,
    read_findings,
    read_totals,
)
from teaching.exchange.stay_sessions import Events, read_care, read_rechecks, read_sessions
from teaching.exchange.stay_times import Clock
from teaching.exchange.wrong_file import WrongFile, load_json
from teaching.rules.facts import Chart, Checklist
from teaching.rules.policy import DEFAULT, Policy, PolicyRefused
from teaching.rules.spoken import LANGUAGES
from teaching.rules.vocabulary import GOES_TO, OWN_LANGUAGE, STAY_EVENTS

FORMAT = "ostomy-teach stay file"
VERSION = 1


@dataclass(frozen=True)
class StayFile:
    """The facts of a stay, the moment to judge them at, in UTC, and the policy with the file's own values."""

    chart: Chart
    at: datetime
    policy: Policy = DEFAULT


def load_stay(path: str | Path, at: str | None = None) -> StayFile:
    """The stay kept in a file. `at` is written as in the file and goes before the file's own."""
    return read_stay(load_json(path), at)


def read_stay(data: object, at: str | None = None) -> StayFile:
    """The stay in parsed JSON. Without `at`, here or in the file, it is judged at its newest moment."""
    book = Book(Clock("UTC"))
    with Fields(book, data, "") as top:
        _check_format(top)
        ward = read_ward(top)
        book.clock = _clock(top, ward.zone)
        book.now = _judged(top, at)
        policy = _policy(top)
        chart = _facts(top, Chart(top.text("stay", "stay"), ward, _checklist(top), (), ()), policy)
    if not book.faults and book.now is None and not chart.moments:
        book.fault("at", "nothing in the file has a time; say at which moment to judge it.")
    if book.faults:
        raise WrongFile(book.faults)
    return StayFile(chart, book.now or chart.moments[-1], policy)


def _facts(top: Fields, chart: Chart, policy: Policy) -> Chart:
    """The chart filled in, in the order in which one part needs another."""
    stomas = read_stomas(top)
    learners, agreed = read_learners(top)
    chart = replace(
        chart,
        stomas=stomas,
        learners=learners,
        consents=agreed + read_consents(top, learners),
        kits=read_kits(top, stomas),
        body_events=read_body_events(top, stomas),
        surgery_at=top.moment("surgery"),
        planned_at=top.moment("planned_home"),
        goes_to=top.code("goes_to", GOES_TO, "home"),
        state=top.code("state", STAY_EVENTS, "opened"),
        taught_before=top.yes("taught_before"),
        language=top.code("language", LANGUAGES, OWN_LANGUAGE),
    )
    events = Events()
    return replace(
        chart,
        ratings=read_sessions(top, chart, events),
        care=read_care(top, chart, events),
        rechecks=read_rechecks(top, chart, events),
        findings=read_findings(top, chart, events),
        totals=read_totals(top, chart),
        cautions=read_cautions(top, chart, policy),
        arrangements=read_arrangements(top),
        appointments=read_appointments(top, chart),
    )


def _check_format(top: Fields) -> None:
    if top.text("format", ...) not in ("", FORMAT):
        top.fault("format", f'must be "{FORMAT}".')
    if top.take("version", int, f"write {VERSION}.", ...) not in (None, VERSION):
        top.fault("version", f"this reader knows version {VERSION}; write {VERSION}, or use a newer reader.")


def _clock(top: Fields, zone: str) -> Clock:
    """The ward's clock, and the day of surgery once it is known, so that days can be counted from it."""
    clock = Clock(zone)
    top.asked.add("surgery")
    try:
        surgery = clock.moment(top.data["surgery"]) if top.data.get("surgery") is not None else None
    except ValueError:
        return clock  # told again, as a fault, when the key itself is read
    return Clock(zone, surgery.astimezone(ZoneInfo(zone)).date()) if surgery else clock


def _judged(top: Fields, at: str | None) -> datetime | None:
    own = top.moment("at")
    if at is None:
        return own
    try:
        return top.book.clock.moment(at)
    except ValueError as trouble:
        top.book.fault("--at", str(trouble))
        return own


def _policy(top: Fields) -> Policy:
    """The defaults with the values this file gives instead, such as {"spacing": 6}."""
    told = top.take("policy", dict, 'write names and values in braces, such as {"spacing": 6}.', {})
    assert isinstance(told, dict) or told is None
    try:
        return DEFAULT.with_overrides(told or {})
    except PolicyRefused as refused:
        for name, sentence in refused.faults:
            top.fault(f"policy.{name}", sentence)
        return DEFAULT


def _checklist(top: Fields) -> Checklist:
    """The version the file names among those that come with the product; version 1 unless it names one."""
    first = load_checklist()
    told = top.take("checklist", dict, 'write {"code": "stoma-care", "number": 1}.', {})
    with Fields(top.book, told or {}, "checklist") as named:
        code, number = (
            named.text("code", first.code),
            named.whole("number", 1, 9999, "versions", first.number),
        )
    for path in sorted(FIXTURE.parent.glob("checklist-*.json")):
        found = load_checklist(path)
        if (found.code, found.number) == (code, number):
            return found
    top.fault(
        "checklist",
        f"{code} {number} does not come with this product; name one that does, such as "
        f"{first.code} {first.number}.",
    )
    return first
