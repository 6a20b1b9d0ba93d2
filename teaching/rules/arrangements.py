"""What must be in place for going home or to a facility: a catalogue, versioned, and what each entry asks to be told.

Blocking: without it the result is "not yet" (R7). Cover: leaned on hour by hour. To do: a list beside the result.
An entry says when it is wanted; `in_place.py` judges what was recorded. A code once used keeps its meaning.
Local policy and the surgeon's orders win over every entry.
"""

from dataclasses import dataclass

CATALOGUE_VERSION = 1

BLOCKING, COVER, TO_DO = "blocking", "cover", "to do"
TEXT, YES, NUMBER, DAY = "text", "yes or no", "whole number", "date as YYYY-MM-DD"
PHONE = "number that can be rung"

SUPPLIES = "supplies"
NUMBER_TO_RING = "number"
FIRST_CONTACT = "first-contact"
FIRST_STOOL_CALL = "first-stool-call"
ROD_OUT, STENTS_OUT = "rod-out", "stents-out"
FLUID_PLAN = "fluid-plan"
SHEET = "sheet"
FACILITY = "facility"
LEAK_SERVICE = "leak-service"
SIZE = "size"

C, P = "C", "P"
NO_SOURCE = "common practice, no source"
SALFORD = "NHS Northern Care Alliance leaflet"


@dataclass(frozen=True, slots=True)
class Detail:
    """One thing an arrangement is to be told. `needed`: without it (or without a yes) it is not in place."""

    name: str
    words: str
    kind: str = TEXT
    needed: bool = True


@dataclass(frozen=True, slots=True)
class Kind:
    """One entry. `wanted` of WHEN; `home` and `facility` say to which leaving it belongs.

    `moment` says what `due_at` means, "" where none is asked for. `who` could arrange it, of gaps.CLOSERS.
    `asked` False: read from the record, never arranged.
    """

    code: str
    words: str
    weight: str
    why: str
    source: str
    class_: str
    details: tuple[Detail, ...] = ()
    moment: str = ""
    wanted: str = "always"
    home: bool = True
    facility: bool = True
    who: str = "planner"
    asked: bool = True


WHEN = {
    "always": "always",
    "rod": "while a rod is in place",
    "stents": "while stents are in place",
    "high-output": "once a 24-hour total of this stay has reached the bound",
    "no-stool-yet": "while real stool has not come",
    "may help": "where somebody leans on it",
}

CATALOGUE = (
    Kind(
        SUPPLIES, "Kit until the first delivery", BLOCKING,
        "Nobody can change a pouch without a pouch.", SALFORD + ": stock until the next review", P,
        (
            Detail("days", "Days that the kit going along lasts", NUMBER),
            Detail("prescription", "Prescription written", YES, needed=False),
            Detail("codes", "Codes of each item", needed=False),
            Detail("size", "Size, as cut or ordered", needed=False),
            Detail("approved", "Approved by who pays", YES, needed=False),
            Detail("lead_days", "Days from order to delivery", NUMBER, needed=False),
            Detail("supplier", "Supplier, chosen by the person", needed=False),
        ),
        moment="First delivery",
    ),
    Kind(
        NUMBER_TO_RING, "A number to ring, day and night", BLOCKING,
        "A leak or a dark stoma does not wait for the morning.", NO_SOURCE, C,
        (Detail("phone", "Number", PHONE), Detail("day_and_night", "Answered day and night", YES)),
        facility=False,
    ),
    Kind(
        FIRST_CONTACT, "First contact after leaving", BLOCKING,
        "Most trouble shows in the first days.", SALFORD + ": seen within 72 h", P,
        (Detail("by", "Who rings or comes", needed=False),),
        moment="When they ring or come", facility=False,
    ),
    Kind(
        ROD_OUT, "A date for the rod to come out", BLOCKING, "A rod that is forgotten cuts in.", NO_SOURCE, C,
        (Detail("place", "Where, and by whom", needed=False),),
        moment="Rod out", wanted="rod", who="team",
    ),
    Kind(
        STENTS_OUT, "A date for the stents to come out", BLOCKING, "Stents that are forgotten block.", NO_SOURCE, C,
        (Detail("place", "Where, and by whom", needed=False),),
        moment="Stents out", wanted="stents", who="team",
    ),
    Kind(
        FLUID_PLAN, "A fluid plan for high output", BLOCKING,
        "Water and salt lost at home bring people back within days.",
        "no one definition of high output (see the line output_today); the parts of the plan: " + NO_SOURCE, C,
        (
            Detail("tablets", "Tablets to slow it, and when"),
            Detail("drink", "The salt and sugar drink, and how much"),
            Detail("plain_water", "At most this much plain water"),
            Detail("target", "Output to aim for, and when to ring"),
            Detail("bloods", "Blood test on", DAY),
            Detail("call", "Call on", DAY),
        ),
        wanted="high-output", who="team",
    ),
    Kind(
        SHEET, "The sheet to take along, in their language", BLOCKING,
        "Much of what is said is soon forgotten; what is written can be read again.",
        "forgetting: Kessels 2003, J R Soc Med; the sheet: " + NO_SOURCE, C,
        (
            Detail("language", "Language of the sheet"),
            Detail("theirs", "The language they read, or have read to them", YES),
        ),
        who="ward-nurse",
    ),
    Kind(
        FACILITY, "A nurse there accepts the stoma's care", BLOCKING,
        "Only somebody who can do it can accept it; a reception desk cannot.", NO_SOURCE, C,
        (
            Detail("accepted_by", "Name of the nurse there"),
            Detail("is_nurse", "This is a nurse, not a reception desk", YES),
            Detail("emptying", "Accepts emptying", YES),
            Detail("leaks", "Accepts leaks", YES),
            Detail("changes", "Accepts changes", YES),
            Detail("day_and_night", "Day and night", YES),
            Detail("name", "Name of the facility", needed=False),
        ),
        home=False,
    ),
    Kind(
        SIZE, "The stoma's size, written down", BLOCKING, "Whoever cuts the next one starts from it.", NO_SOURCE, C,
        home=False, who="ward-nurse", asked=False,
    ),
    Kind(
        LEAK_SERVICE, "A nurse who comes for a leak", COVER,
        "Where nobody at home can change the pouch, somebody must come; a number alone is no service.", NO_SOURCE, C,
        (
            Detail("answers_hours", "Comes within hours", NUMBER),
            Detail("day_and_night", "Day and night", YES, needed=False),
            Detail("from_hour", "Else from (hour)", NUMBER, needed=False),
            Detail("until_hour", "until (hour)", NUMBER, needed=False),
            Detail("weekends", "At weekends too", YES, needed=False),
            Detail("phone", "Number", PHONE, needed=False),
        ),
        wanted="may help", facility=False,
    ),
    Kind(
        FIRST_STOOL_CALL, "A call for the first real stool", TO_DO,
        "Emptying was shown with water only; somebody asks how the first real one went.", NO_SOURCE, C,
        moment="When they ring", wanted="no-stool-yet", facility=False, who="stoma-nurse",
    ),
    Kind("pharmacist", "A pharmacist has looked at the tablets", TO_DO,
         "Some tablets pass a short bowel whole.", NO_SOURCE, C, (Detail("by", "Who looked", needed=False),),
         who="pharmacist"),
    Kind("follow-up", "Follow-up with the stoma nurse", TO_DO, "The stoma shrinks, and questions come.", NO_SOURCE, C,
         (Detail("place", "Where", needed=False),), moment="Appointment"),
    Kind("surgeon", "Follow-up with the surgical team", TO_DO, "Wound, results, and whether it is for good.",
         NO_SOURCE, C, (Detail("place", "Where", needed=False),), moment="Appointment", who="team"),
    Kind("spare-kit", "Kit for the way home", TO_DO, "A pouch may leak on the way.", NO_SOURCE, C, who="ward-nurse"),
)

KINDS = {kind.code: kind for kind in CATALOGUE}
