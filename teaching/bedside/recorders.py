"""What may be recorded at the bedside, each on its own page of one recorder."""

from collections.abc import Mapping
from dataclasses import dataclass

from teaching.bedside.which import EMPTYING
from teaching.rules.items import Item
from teaching.rules.vocabulary import PHASES


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorder:
    """`name` is that of its address and view; `offered` gives the procedure of a stoma that has a feature."""

    name: str
    permission: str
    offered: Mapping[str, str]
    asks: str
    which: str
    without: str
    rates: bool = True


EMPTYINGS = Recorder(
    name="emptying",
    permission="record_emptying",
    offered=EMPTYING,
    asks="Who emptied, and which stoma",
    which="Tap whose emptying this was, once they have said their name and birth date.",
    without="no pouch is written down for it yet",
)
CHANGES = Recorder(
    name="change",
    permission="record_change",
    offered={"one-piece": "change", "two-piece": "change"},
    asks="Who changed the pouch, and which stoma",
    which="Tap whose change this was, once they have said their name and birth date.",
    without="no pouch is written down for it yet",
)
NIGHTS = Recorder(
    name="night",
    permission="record_emptying",
    offered={"urostomy": "night"},
    asks="Who did it, and which stoma",
    which="Tap whose night drainage this was, once they have said their name and birth date.",
    without="it passes no urine",
)
MEETINGS = Recorder(
    name="meeting",
    permission="log_care",
    offered=dict.fromkeys(("ileostomy", "colostomy", "urostomy"), "meeting"),
    asks="Who met it, and which stoma",
    which="Tap who met their stoma, once they have said their name and birth date.",
    without="",
    rates=False,
)
RECORDERS = (EMPTYINGS, CHANGES, NIGHTS, MEETINGS)

TITLES = {
    "emptying": "An emptying",
    "urine": "An emptying",
    "swap": "A swap",
    "change": "A pouch change",
    "night": "Night drainage",
}

# What is confirmed at once must have happened at once: the evening's sentence says nothing of the morning.
MORNING = ("nd-part", "nd-clean")
TROUBLE = ("nd-stuck",)
PARTS = PHASES | {"evening": "In the evening", "morning": "In the morning", "trouble": "When it goes wrong"}


def title_of(procedure: str, taught: bool) -> str:
    if procedure == "meeting":
        return "Meeting the stoma"
    return f"{TITLES[procedure]}, {'taught and seen' if taught else 'seen'}"


def part_of(item: Item) -> str:
    """The part of a procedure that one sentence confirms: a phase of a change, a part of the night; "" the whole."""
    if item.procedure == "night":
        return "morning" if item.code in MORNING else "trouble" if item.code in TROUBLE else "evening"
    return item.phase


def alone_name(part: str) -> str:
    return f"alone.{part}" if part else "alone"


def ratable_beside(event) -> bool:
    """Whether a second nurse may rate it alone: what was shown with the hands, on the recorder's own form."""
    return event.kind == "teaching" and event.procedure != "topics"


def recorder_of(procedure: str) -> Recorder:
    """The recorder a session of this procedure is written with. StopIteration for topics, which have none."""
    return next(each for each in RECORDERS if procedure in each.offered.values())
