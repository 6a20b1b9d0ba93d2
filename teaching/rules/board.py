"""What a board shows of one stay: who and where, and the summary of `assess` that `stay_now` keeps.

`record.figures.board(unit, now)` returns these; screens and the huddle list read nothing else of a board.
"""

from dataclasses import dataclass
from datetime import datetime

from teaching.rules.facts import Caution, Stoma

ON_THE_BOARD = ("opened", "moved", "paused", "resumed", "reopened")  # the states of a stay that a board shows

@dataclass(frozen=True, slots=True)
class Due:
    """One thing due: a procedure, when (UTC), and the stoma's label, "" where there is only one stoma."""

    procedure: str
    at: datetime
    stoma: str = ""


@dataclass(frozen=True, slots=True)
class Begun:
    """A session begun and not signed: by whom (their name), since when."""

    by: str
    at: datetime


@dataclass(frozen=True, slots=True)
class BoardRow:
    """One stay on the board. Times in UTC.

    `standing` is one sentence on what the record shows now ("Emptying: shown once alone; one more needed.").
    `aim` is the one thing to teach next, `aim_because` why; `waits` why nothing is to be taught now; `helper` says who
    else learns. "" where none. `only_booked`: bound for a care facility, so that only what is booked is taught.
    """

    stay: str
    bed: str
    name: str
    mrn: str
    stomas: tuple[Stoma, ...] = ()
    cautions: tuple[Caution, ...] = ()
    due: tuple[Due, ...] = ()
    standing: str = ""
    aim: str = ""
    aim_because: str = ""
    waits: str = ""
    only_booked: bool = False
    helper: str = ""
    begun: tuple[Begun, ...] = ()
    planned_at: datetime | None = None
    paused: bool = False
