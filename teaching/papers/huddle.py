"""The huddle list: one line a person for one unit, on one side of A4. Facts in, content out."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.board import BoardRow
from teaching.rules.huddle import HuddleLine, huddle_line, huddle_order, spoken_date
from teaching.rules.ward import Ward


@dataclass(frozen=True, slots=True)
class HuddleList:
    """Everything the paper says. Times in words, the unit's own; `stoma_nurse` "" where unknown."""

    unit: str
    shift: str
    lines: tuple[HuddleLine, ...]
    call_now: int
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
    stoma_nurse: str = "",
) -> HuddleList:
    """The list as it stands at `now`, people in the order they are read."""
    ordered = sorted(rows, key=lambda row: huddle_order(row, now))
    lines = tuple(huddle_line(row, ward, now) for row in ordered)
    day, shift = ward.shift(now)
    return HuddleList(
        unit=unit,
        shift=f"{spoken_date(day)}, {shift}",
        lines=lines,
        call_now=sum(1 for line in lines if any(caution.call_now for caution in line.cautions)),
        stoma_nurse=stoma_nurse,
        printed_by=printed_by,
        printed_at=f"{spoken_date(ward.date(now))} {ward.local(now):%H:%M}",
        policy=policy,
    )
