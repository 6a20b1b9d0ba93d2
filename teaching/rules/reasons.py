"""Why a rule says what it says: a reason is a code with its parameters, and its words stand only here.

Moments among the parameters are already on the ward's own clock.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

WORDS = {
    # what a row still needs
    "not-started": "Not started.",
    "not-attempted": "Nothing known yet: so far {answer}.",
    "declined": "Declined so far.",
    "helped": "Needed help {at} (level {answer}).",
    "judged-wrongly": "Judged wrongly {at}.",
    "slipped": "Was alone before; needed help {at} (level {answer}).",
    "slipped-judging": "Judged rightly before; judged wrongly {at}.",
    "set-up-only": "{at}: only set out or cleared up by someone (05).",
    "alone-needed": "Still to be shown alone, on {count:separate occasion}.",
    "once-more-another-time": "Alone {at}. Once more alone, in another shift or {hours:hour} away from it.",
    "once-more-another-date": "Alone {at}. Once more alone, on another date.",
    "real-needed": "So far only as practice. Once for real, alone.",
    "practice-not-counted": "Practice does not count for this row.",
    "confirm-change": "One change with the stoma nurse, or a nurse signed off to teach.",
    "confirm": "Once more alone, with a registered nurse watching.",
    "after-reason": "Needed help {at} ({why}). Once more alone.",
    "after-kit": "New kit {at}: {what}. Once more alone.",
    "after-tubes": "Rod or stent out {at}. Once more alone.",
    "after-missed": "A finding {at} was seen by the nurse, not by the learner. Once more alone.",
    "after-state": "After {state} ({at}). Once more alone.",
    "re-sited": "Stoma re-sited {at}: this begins again.",
    "while": "Not relied on while there is {state}.",
    "out-of-date": "Last seen alone {at}: show it again.",
    "helper-sets-out": "Alone once someone has set out or clears up (05): someone must be there.",
    "provisional": "Shown as practice only, until real stool comes.",
    "book-stool-call": "Practice may stand until real stool comes, once a call for the first one is booked.",
    # looking rows, by a helper
    "may-look": "May look in the person's place.",
    "cannot-see": "Someone who sees must look.",
    "look-agree": "May look once both have said yes.",
    "look-teach": "May look once taught what to look for.",
    # topics
    "not-told": "Not told yet.",
    "told": "Told {at}. Ask back in own words from {since}.",
    "not-yet": "Asked {at}, not yet in own words. Explain again and ask back.",
    "too-soon": "Said back {at}, too soon after it was told. Ask back from {since}.",
    "same-day": "Explained on the same day it was told.",
    "another-nurse": "Said back on the day it was told: another nurse asks too, or ask tomorrow.",
    "contact-needed":
        "Said back on the day it was told: book a call within {hours:hour} of leaving, or ask tomorrow.",
    "trained-interpreter": "Said back without a trained interpreter. Ask again with one.",
    # what stands out
    "to-facility": "Bound for a care facility: its nurses take over. Teach what the person asks for.",
    "call-first": "Call first: {sign}. Teaching waits.",
    "paused": "Teaching is paused.",
    "stopped": "Teaching has stopped.",
    "left": "Has left.",
    "cancelled": "The stay was cancelled.",
    "no-kit": "No kit is written down for the {stoma}.",
    "no-change": "No change is recorded for the {stoma}, so when the next is due is not known.",
    "no-interval": "Nobody has said how often the {stoma} is changed, so when the next is due is not known.",
    "overdue": "The pouch change of the {stoma} was due {at}.",
    "last-leak": "The last pouch on the {stoma} ended by a leak {at}.",
    "state": "{state} since {at}.",
    "interpreter": "A trained interpreter is needed.",
    "no-steps": "No essential step applies to the {stoma} with this kit.",
    # the plan
    "plan-paused": "Teaching is paused or has ended: nothing is foreseen.",
    "plan-while": "Nothing can be foreseen while there is {state}.",
    "plan-held": "What {result} needs is held now, and still is at the planned moment.",
    "plan-only": "{often} more alone; {first} is the only {what} left. "
                 "If it is taken, {result} from {at} on, not before.",
    "plan-several": "{often} more alone; {left} {what} are left, the next {first}. "
                    "If each is taken, {result} from {at} on, not before.",
    "plan-practice": "{often} more alone, as practice. If each chance is taken, {result} from {at} on, not before.",
    "plan-say-back": "What is told must be said back. If each chance is taken, {result} from {at} on, not before.",
    "plan-lost": "{result} could be reached {at}, but is out of date again by the planned moment.",
    "plan-late": "{changes}: {result} not before {at}, after the planned leaving.",
    "plan-none": "No result can be reached by {until}, even if each chance is taken; {changes}.",
    "move-practice": "Practise on a model or with water in the pouch{stoma}.",
    "move-seen": "The stoma nurse, or a nurse signed off to teach, at the change {at}{stoma}.",
    "move-find-helper": "Find somebody to learn it too, who is there day and night.",
    "move-helper": "Have {name} there whenever it is taught.",
    "move-visit": "A nurse's visit for the change{stoma}, accepted, by {by}.",
    "move-visit-time": "The nurse's visit at another time{stoma}, by {by}.",
    "move-morning": "A change on the morning of leaving{stoma}, {at}, if the stoma nurse agrees.",
    "move-extra": "One extra change to teach by{stoma}, from {at} on, if the stoma nurse agrees and the skin is good.",
    # fit
    "opening-tight":
        "The opening is {opening} mm {axis} for a stoma of {size} mm: less than {least} mm of room in all can press "
        "on it or cut it.",
    "opening-wide":
        "The opening is {opening} mm {axis} for a stoma of {size} mm: more than {most} mm of room in all leaves skin "
        "bare.",
    "pre-cut-tight":
        "This flange comes cut to {opening} mm and the stoma is {size} mm {axis}: it can press on it. Ask for a larger "
        "pre-cut size.",
    "pre-cut-wide":
        "This flange comes cut to {opening} mm and the stoma is {size} mm {axis}: skin is left bare. Ask for a smaller "
        "pre-cut size.",
    "past-cutting-limit":
        "The opening is {opening} mm {axis}, past the {limit} mm to which this flange can be cut. It needs another "
        "flange.",
    "powder-on-good": "Powder on skin recorded as good ({where}): a flange does not stick to powder.",
    "powder-skin-good":
        "Powder was used, and all the skin seen is recorded as good: a flange does not stick to powder.",
    "cut-to":
        "Cut {across}: {least} to {most} mm wider than the stoma in all, which is {half_least} to {half_most} mm a "
        "side.",
    "moulded": "Moulded by hand to the stoma's edge, so no opening is cut.",
    "round-tube": "With a rod, or a gap at the edge, the opening is not worked out from the size.",
    "comes-cut": "Comes cut to {opening} mm.",
    "measure-first": "Not measured yet: measure at the next change.",
    "measure-by": "Measure again by {at}.",
    "measure-now": "Measuring again was due {at}.",
    "size-settled": "Weekly measuring ended {at}; measure when the fit changes.",
    "worn-long": "The pouch now on has been worn since {at}, longer than {days:day}.",
    "interval-unusual": "Changed every {hours:hour}; for a new stoma {least} to {most} days is usual.",
    "early-look":
        "First {hours:hour}: look at the colour each time. Dark, dusky, pale or dry: stop, and call the surgical "
        "team now.",
    # nurses' skills
    "skill-practices": "Observed practices: {seen} of {needed}.",
    "skill-below": "Not yet at 5 (independent): {rows}.",
    "skill-below-many": "{count:row} not yet at 5 (independent), the lowest first: {rows}.",
    "skill-once-more": "Once more at 5 (independent): {rows}.",
    "skill-unseen": "Not observed yet: {rows}.",
    "skill-new-rows": "New in version {version}, not observed yet: {rows}.",
    "skill-with-a-person": "{which} must be with a person; so far only {elsewhere}.",
    "skill-other-grade": "Not asked of this grade.",
    "skill-valid": "Signed off until {until}.",
    "skill-lapsed": "Lapsed: was signed off until {until}.",
    "skill-granted": "Signed off {day} by {by}.",
    "skill-certificate": "Accepted {day} by {by}: {certificate}, valid from {since}.",
    "skill-withdrawn": "Withdrawn {day} by {by}: {why}.",
    "skill-basis-gone": "It rests on a practice that was taken back since. Withdraw it if it no longer holds.",
    # who teaches
    "cover-nobody-ticked": "{changes} on {weekday}'s {shift} shift with nobody ticked.",
    "cover-nobody-signed-off": "{changes} on {weekday}'s {shift} shift with nobody ticked who is signed off to teach.",
    # how it was written down
    "late-entry": "Late entry, written {after} after.",
    # readiness: what is wanting
    "gap-know": "What must be known before going home is not explained yet{stoma}.",
    "gap-nobody": "Nobody manages {what} alone yet{stoma}.",
    "gap-hours": "Nobody is there for {what}{stoma}: {hours:hour}, the first {at}.",
    "gap-change": "Nobody does the first change after leaving, due {at}{stoma}.",
    "gap-change-some-time": "Nobody does the first change after leaving{stoma}.",
    "gap-look": "Nobody who sees looks at stoma and skin at the change due {at}{stoma}.",
    "gap-look-some-time": "Nobody who sees looks at stoma and skin at the first change{stoma}.",
    "gap-topics": "{count:topic} not explained yet{stoma}.",
    "gap-wear": "A pouch leaked early {at}{stoma}. Until one has held {hours:hour}, {until} at the soonest, "
                "a nurse comes for the change.",
    "caution-open": "{sign}: not told to anybody yet.",
    "caution-told": "{sign}: told, not settled.",
    "not-arranged": "{what}: not arranged yet.",
    "only-asked": "{what}: asked for, nobody has said yes yet.",
    "refused": "{what}: refused. Find another way.",
    "say-also": "{what}: still to be written down: {names}.",
    "contact-not-in-time": "First contact {at} is not within {hours:hour} after leaving.",
    "days-without-kit": "{days:day} without kit before the first delivery {at}.",
    "no-size": "The size of the {stoma} is not written down.",
    # readiness: ways to close it
    "visit-by": "A nurse's visit for the change, by {by}.",
    "visit-change": "A nurse's visit for the change.",
    "visit-look": "A nurse's visit to look, by {by}.",
    "visit-topics": "A nurse's visit after leaving, to explain them.",
    "no-room-for-visit": "The change is due too soon after leaving for a visit {hours:hour} before it: "
                         "plan the change, or the leaving, anew.",
    "leak-service": "A service that comes for a leak, with its hours and how soon it comes.",
    "more-hours": "Somebody who can do it is there {at} as well.",
    "ask-hours": "Ask at which hours {name} is there.",
    # readiness: what is not known
    "no-leaving": "No day of leaving is planned.",
    "leaving-passed": "The planned leaving {at} has passed: plan it anew.",
    "no-stoma": "No stoma is written down yet.",
    "no-teaching-here": "No teaching was signed on this stay yet.",
    "not-fresh": "Nothing signed since {at}, more than {hours:hour} ago: ask, and see one step.",
    "unknown-part": "Not known whether {what} is covered{stoma}.",
    # readiness: what a good result leans on
    "all-alone": "Manages everything alone, at every hour.",
    "leans-helper": "It leans on {name} for {what}{stoma}.",
    "leans-nursing": "It leans on nursing care for {what}{stoma}.",
    "facility-accepts": "A nurse at the facility accepts emptying, leaks and changes, day and night.",
    # kit to take along
    "take-until": "{pouches} {what}{stoma}: {worn} to last {days:day} until the first delivery, "
        "one every {hours:hour}, and {spares} spare.",
    "take-unsaid": "{pouches} {what}{stoma}: {worn} to last {days:day}, "
        "as the days until a first delivery cannot be said, one every {hours:hour}, and {spares} spare.",
    "take-capped": "{pouches} {what}{stoma}: {worn} to last {days:day}, one every {hours:hour}, and {spares} spare. "
        "No more, though the delivery is {wanted:day} away: the size still changes.",
    "take-cap": "While the size changes, kit for {days:day} at most.",
    "take-closed": "Closed pouches are swapped between changes: count those besides.",
    # cautions
    "tell-first": "Settle a caution only after it was told to someone.",
    "settled-early": "Settled before it was told; correct one of the two times.",
}


class Reason:
    """A code of WORDS with its parameters. Equal when both are equal."""

    __slots__ = ("code", "parameters")

    def __init__(self, code: str, /, **parameters: Any) -> None:
        self.code = code
        self.parameters = parameters

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Reason) and (self.code, self.parameters) == (other.code, other.parameters)

    def __hash__(self) -> int:
        return hash((self.code, tuple(sorted(self.parameters))))

    def __repr__(self) -> str:
        return f"Reason({self.code!r}: {words(self)})"


class Counted(int):
    """A whole number with what is counted: "{hours:hour}" says "1 hour" and "4 hours"."""

    def __format__(self, counted: str) -> str:
        return f"{int(self)} {counted}{'' if self == 1 else 's'}" if counted else str(int(self))


def words(reason: Reason) -> str:
    """The reason as a sentence."""
    return filled(WORDS[reason.code], reason.parameters)


def filled(sentence: str, parameters: Mapping[str, Any]) -> str:
    return sentence.format(**{name: _said(value) for name, value in parameters.items()})


def _said(value: Any) -> Any:
    if isinstance(value, datetime):
        return f"{DAYS[value.weekday()]} {value.day} {MONTHS[value.month - 1]} {value:%H:%M}"
    return Counted(value) if isinstance(value, int) else value
