"""A fixed unit at a fixed moment: 30 invented people, so that the list is the same on every machine and day."""

from datetime import UTC, date, datetime, time, timedelta

from teaching.rules.board import Begun, BoardRow, Due
from teaching.rules.facts import Appointment, Caution, Stoma
from teaching.rules.huddle_cover import Holder, cover, planned_changes, soon
from teaching.rules.policy import DEFAULT
from teaching.rules.ward import Shift, Ward

NOW = datetime(2026, 5, 13, 12, 40, tzinfo=UTC)  # Wednesday 13:40 on the ward's clock
WARD = Ward(
    zone="Europe/London",
    shifts=(
        Shift("early", time(7), time(14, 30)),
        Shift("late", time(14, 30), time(21, 30)),
        Shift("night", time(21, 30), time(7)),
    ),
)
FAMILIES = (
    "Fernhollow Quillfeather Larkmead Appleyard Winterbourne Saltmarsh Underhill Thornbury Ravenscar Meadowsweet "
    "Greystone Oxbow Stillwater Ashgrove Birchall Coldwell Dunmore Eastlake Foxley Goldsworth Hartwell Ivybridge "
    "Kestrel Longacre Millbrook Nightingale-Featherstonehaugh Oakhanger Pennywort Quarrington Rosemarkie"
)
LINES = (
    ("Emptying: shown once alone; one more, in another shift or 4 hours apart.", "Shut the outlet and check it"),
    ("Emptying: independent, newest yesterday 09:30.", "Say in own words what loss of fluid feels like"),
    ("Emptying: learning, helped with 3 of 5 steps.", "Wipe the end inside and out"),
    ("Nothing shown yet.", "Choose when to empty"),
)


def hours(count: float) -> timedelta:
    return timedelta(hours=count)


def caution(words="Output 1500 mL or more in 24 hours: ask for a fluid plan", **more) -> Caution:
    given = {"key": "c", "sign": "output-today", "list": "today", "at": NOW - hours(6)} | more
    return Caution(words=words, **given)


def row(number=1, **more) -> BoardRow:
    standing, aim = LINES[number % 4]
    given = {
        "stay": f"stay-{number}",
        "bed": f"{'ABCDE'[(number - 1) // 6]}{(number - 1) % 6 + 1}",
        "name": f"Given {FAMILIES.split()[number - 1]}",
        "mrn": f"000-{number:03}",
        "stomas": (Stoma("s", "right", "ileostomy", formed_at=NOW - timedelta(days=number % 9)),),
        "due": (Due("change", NOW + hours(6 * number - 30)),),
        "standing": standing,
        "aim": aim,
        "planned_at": NOW + timedelta(days=number % 5),
    }
    return BoardRow(**given | more)


def full_ward() -> tuple[BoardRow, ...]:
    """Thirty people; among them cautions of every state, two stomas, a helper, a draft, a pause, no plan."""
    two = (
        Stoma("u", "right", "urostomy", formed_at=NOW - timedelta(days=8)),
        Stoma("c", "left", "colostomy", formed_at=NOW - timedelta(days=8)),
    )
    special = {
        4: {"cautions": (caution("Stoma dark, dusky or pale", list="call_now", sign="dark-stoma"),)},
        8: {"cautions": (caution(told=NOW - hours(5), told_whom="Dr Nettle", look_again_at=NOW + hours(18)),)},
        9: {"stomas": two, "due": (Due("change", NOW + hours(20), "left"),)},
        12: {"helper": "Hugo, husband learning too"},
        15: {"begun": (Begun("Basil Thorne", NOW - hours(11)),)},
        18: {"paused": True},
        21: {"planned_at": None},
        24: {"cautions": (caution("A gap at the edge of the stoma", sign="gap", settled=NOW),)},
        27: {"stomas": (Stoma("s", "left", "colostomy", formed_at=NOW + timedelta(days=1)),), "due": ()},
    }
    return tuple(row(number, **special.get(number, {})) for number in range(1, 31))


ALWAYS = (NOW - timedelta(days=90), NOW + timedelta(days=90))
HOLDERS = {
    "amber": Holder("amber", (("teach-bowel", *ALWAYS),)),
    "sorrel": Holder("sorrel", (("teach-bowel", *ALWAYS), ("teach-urostomy", *ALWAYS))),
    "basil": Holder("basil", ()),
}


def covers(rows):
    """Amber and Basil teach this early shift, Basil alone tomorrow's; Sorrel is booked for bed B3 at 10:40 tomorrow."""
    wednesday, thursday = date(2026, 5, 13), date(2026, 5, 14)
    ticked = {(wednesday, "early"): {"amber", "basil"}, (thursday, "early"): {"basil"}}
    booked = {"stay-9": [Appointment("b", NOW + hours(21), "booked", stoma="c", teacher="sorrel")]}
    return cover(soon(planned_changes(rows, booked, WARD, NOW), DEFAULT, NOW), ticked, HOLDERS, WARD, NOW)
