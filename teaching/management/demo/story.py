"""What a story is made of. Times are text: days from today and the ward's clock, "-2 15:10" or "+1 12:00".

"ago 0:50" is so long before the loading, for what is still to be answered.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from teaching.management.demo.cast import HERON, ZONE

# The rated rows of the short procedures; a story adds what its kit or state brings. Of the others, which rows
# there are is asked of the checklist.
ROWS = {
    "emptying": ("em-when", "em-open", "em-wipe", "em-close", "em-hands"),
    "urine": ("ue-when", "ue-open", "ue-shut", "ue-look", "ue-hands"),
    "swap": ("cl-when", "cl-off", "cl-on"),
}


def moment(text: str, now: datetime) -> datetime:
    """The moment that "-2 15:10" means, on the ward's own clock, seen from `now`."""
    days, clock = text.split()
    hour, minute = clock.split(":")
    if days == "ago":
        return now - timedelta(hours=int(hour), minutes=int(minute))
    here = now.astimezone(ZoneInfo(ZONE))
    day = here.date() + timedelta(days=int(days))
    return datetime(day.year, day.month, day.day, int(hour), int(minute), tzinfo=here.tzinfo)


@dataclass(frozen=True)
class Pouch:
    """What a stoma wears. The outlet follows the kind of stoma unless the story says otherwise."""

    pieces: str = "two"
    opening: str = "cut"
    closure: str = "drainable"
    outlet: str = "strip"
    items: tuple[str, ...] = ("remover",)
    interval_hours: int | None = 72


@dataclass(frozen=True)
class Stoma:
    kind: str
    construction: str = "end"
    side: str = "left"
    pouch: Pouch = Pouch()


@dataclass(frozen=True)
class Helper:
    """Somebody who learns with the person, or instead. Both said yes at `agreed`.

    `there`: the hours of each day, such as (8, 20) or (0, 24); None: nobody has asked.
    """

    name: str
    relation: str
    agreed: str
    lives_in: bool = False
    there: tuple[int, int] | None = None


@dataclass(frozen=True, kw_only=True)
class Moment:
    """Something that happened, by whom (a username), to which stoma (its side, if there are two)."""

    at: str
    by: str
    stoma: str = ""


@dataclass(frozen=True, kw_only=True)
class Taught(Moment):
    """A teaching session: every rated row at `level`, except or besides as `rows` say, by code or by phase;
    level "" leaves the rest unrated.

    `beside` rated the same event alone, with `beside_rows` otherwise; `corrected` rows were put right, and `why`.
    """

    level: str = "06"
    rows: Mapping[str, str] = field(default_factory=dict)
    procedure: str = "emptying"
    helper: bool = False
    place: str = "bathroom"
    minutes: int = 10
    reason: str = ""
    practice: bool = False
    reported: bool = False
    interpreter: str = ""
    ended_how: str = "finished"
    cosigned_by: str = ""
    beside: str = ""
    beside_rows: Mapping[str, str] = field(default_factory=dict)
    corrected: Mapping[str, str] = field(default_factory=dict)
    why: str = ""
    finding: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Cared(Moment):
    """Care given by a nurse or an assistant, nothing to rate."""

    procedure: str = "change"
    finding: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Rechecked(Moment):
    """Still manages all of this alone."""

    procedure: str = "emptying"


@dataclass(frozen=True, kw_only=True)
class Refitted(Moment):
    """Other kit goes on."""

    pouch: Pouch


@dataclass(frozen=True, kw_only=True)
class Body(Moment):
    """A state of the person or a stoma began or ended: delirium, stents, output being measured."""

    code: str
    change: str = "began"


@dataclass(frozen=True, kw_only=True)
class Output(Moment):
    """A 24-hour total from the fluid chart, mL."""

    ml: int


@dataclass(frozen=True, kw_only=True)
class Silent(Moment):
    """Asked: nothing has come out since then."""

    since: str


@dataclass(frozen=True, kw_only=True)
class Left(Moment):
    """The person has gone."""

    to: str = "home"


@dataclass(frozen=True, kw_only=True)
class Rang(Moment):
    """After leaving: somebody was rung, and answered or not."""

    kind: str = "no-answer"
    told: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Cautioned(Moment):
    """A sign tapped; then told to somebody, and settled, where the story gets that far."""

    sign: str
    told: str = ""
    whom: str = ""
    answer: str = ""
    look_again: str = ""
    settled: str = ""


@dataclass(frozen=True, kw_only=True)
class Begun(Moment):
    """A session begun now and not signed."""

    procedure: str = "emptying"
    rows: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Arranged:
    """Something that must be in place; `due` is the moment it asks for."""

    code: str
    state: str = "made"
    due: str = ""
    details: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Visited:
    """A nurse who is to come after leaving; accepted by whom, or only asked for."""

    at: str
    accepted_by: str = ""
    for_change: bool = True


@dataclass(frozen=True, kw_only=True)
class Booked:
    """A time for teaching still to come, or one that was missed, and why."""

    at: str
    teacher: str
    procedure: str = "change"
    helper: bool = False
    interpreter: bool = False
    aim: str = ""
    state: str = "booked"
    why: str = ""


@dataclass(frozen=True, kw_only=True)
class Story:
    """One invented person. `shows` is the rule their record lets a reader see."""

    shows: str
    given: str
    family: str
    born: str
    bed: str
    surgery: str
    stomas: tuple[Stoma, ...]
    leaves: str = ""
    goes_to: str = "home"
    language: str = "en"
    unit: str = HERON
    helper: Helper | None = None
    needs: tuple[str, ...] = ()
    moments: tuple[Moment, ...] = ()
    home: tuple[Arranged | Visited | Booked, ...] = ()
