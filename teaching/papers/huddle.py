"""The huddle list: one line a person for one unit, on one side of A4. Facts in, content out."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.board import BoardRow
from teaching.rules.huddle import DAYS, HuddleLine, huddle_line, huddle_order, spoken_date
from teaching.rules.huddle_cover import Cover
from teaching.rules.ward import Ward

WANTING = {False: "Changes with nobody ticked to teach", True: "Changes with nobody signed off among those ticked"}


@dataclass(frozen=True, slots=True)
class Untaught:
    """Changes with nobody signed off to teach them: why, and where ("Wed late: A1, C2")."""

    why: str
    where: str


@dataclass(frozen=True, slots=True)
class HuddleList:
    """Everything the paper says. Times in words, the unit's own; `teaches`, `stoma_nurse` "" where unknown."""

    unit: str
    shift: str
    lines: tuple[HuddleLine, ...]
    call_now: int
    teaches: str
    untaught: tuple[Untaught, ...]
    stoma_nurse: str
    printed_by: str
    printed_at: str
    policy: str

    @property
    def count(self) -> str:
        return "1 person" if len(self.lines) == 1 else f"{len(self.lines)} people"


def huddle_content(
    *,
    unit: str,
    ward: Ward,
    rows: Iterable[BoardRow],
    now: datetime,
    printed_by: str,
    policy: str,
    teaches: Iterable[tuple[str, bool]] = (),
    covers: Iterable[Cover] = (),
    stoma_nurse: Iterable[tuple[str, datetime, str]] = (),
) -> HuddleList:
    """The list as it stands at `now`, people in the order they are read.

    `teaches` are those ticked for this shift, each with whether signed off to teach; `stoma_nurse` her booked times
    (name, moment, stay).
    """
    ordered = sorted(rows, key=lambda row: huddle_order(row, now))
    beds = {row.stay: row.bed or row.name for row in ordered}
    lines = tuple(huddle_line(row, ward, now) for row in ordered)
    day, shift = ward.shift(now)
    return HuddleList(
        unit=unit,
        shift=f"{spoken_date(day)}, {shift}",
        lines=lines,
        call_now=sum(1 for line in lines if any(caution.call_now for caution in line.cautions)),
        teaches="; ".join(sorted(name if signed else f"{name} (not signed off)" for name, signed in teaches)),
        untaught=_untaught(tuple(covers), beds),
        stoma_nurse=_times(stoma_nurse, beds, ward),
        printed_by=printed_by,
        printed_at=f"{spoken_date(ward.date(now))} {ward.local(now):%H:%M}",
        policy=policy,
    )


def _untaught(covers: tuple[Cover, ...], beds: dict[str, str]) -> tuple[Untaught, ...]:
    """By what is wanting, and in it by shift; a bed once a shift."""
    found = []
    for ticked, why in WANTING.items():
        where = [
            f"{DAYS[each.day.weekday()]} {each.shift}: {', '.join(_beds(each, beds))}"
            for each in covers
            if each.untaught and each.anybody_ticked == ticked
        ]
        if where:
            found.append(Untaught(why, "; ".join(where)))
    return tuple(found)


def _beds(cover: Cover, beds: dict[str, str]) -> list[str]:
    return list(dict.fromkeys(beds[one.stay] for one in cover.untaught))


def _times(booked: Iterable[tuple[str, datetime, str]], beds: dict[str, str], ward: Ward) -> str:
    """Such as "a nurse 10:00 A1, 11:30 C2"."""
    times: dict[str, list[str]] = {}
    for name, at, stay in sorted(booked, key=lambda one: (one[1], one[0])):
        times.setdefault(name, []).append(f"{ward.local(at):%H:%M} {beds[stay]}")
    return "; ".join(f"{name} {', '.join(each)}" for name, each in times.items())
