"""What would help, as an act somebody can do: a verb first, then what, with whom; and who could, by when.

`reasons.py` says why something is wanting; here the same reason is turned to what is to be done about it.
"""

from datetime import UTC, datetime

from teaching.rules.arrangements import FACILITY
from teaching.rules.cover import HOUR
from teaching.rules.facts import Chart, Learner
from teaching.rules.gaps import CLOSERS, ROWS_OF, Gap, Way, which
from teaching.rules.moves import Move
from teaching.rules.readiness_said import NAMED_STEPS
from teaching.rules.reasons import Reason, filled
from teaching.rules.vocabulary import PROCEDURES

ONCE_MORE = "See {doing} done alone{by} once more"
TEACH_AGAIN = "Teach {to}{doing} again"
VISIT = "Book a nurse's visit for the change{stoma}, after {since} and by {by}, {hours} h before it is due {due}"

# By the code of a reason, with its parameters. {doing} is the procedure; {to}, {by}, {whom} the learner, where more
# than one learns; {stoma} which of two; {later} what is to be waited for. Steps or topics follow after a colon.
ACTS = {
    # steps
    "not-started": "Teach {to}{doing}",
    "not-attempted": "See {doing} tried{by}",
    "declined": "Offer {to}{doing} again",
    "helped": TEACH_AGAIN,
    "judged-wrongly": TEACH_AGAIN,
    "slipped": TEACH_AGAIN,
    "slipped-judging": TEACH_AGAIN,
    "set-up-only": "See {doing} done{by} with nobody setting out or clearing up",
    "alone-needed": "See {doing} done alone{by}, on {count:separate occasion}",
    "once-more-another-time": ONCE_MORE + "{later}",
    "once-more-another-date": ONCE_MORE + "{later}",
    "real-needed": "See {doing} done alone{by} for real",
    "practice-not-counted": "See {doing} done alone{by} for real",
    "confirm-change": "Book one change{by} with the stoma nurse, or a nurse signed off to teach",
    "confirm": "Ask a registered nurse to watch {doing} done alone{by} once more",
    "after-reason": ONCE_MORE,
    "after-kit": ONCE_MORE + " with the new kit",
    "after-tubes": ONCE_MORE,
    "after-missed": ONCE_MORE,
    "after-state": ONCE_MORE,
    "re-sited": "Teach {to}{doing} anew",
    "while": "See {doing} done{by} again once there is no more {state}",
    "out-of-date": "See {doing} done alone{by} again",
    "helper-sets-out": "Find somebody to set out and clear up for {doing}",
    "book-stool-call": "Book a call for the first real stool",
    "cannot-see": "Find somebody who sees to look at stoma and skin",
    "look-agree": "Ask both whether {learner} may look at stoma and skin",
    "look-teach": "Teach {to}what to look for",
    # topics
    "not-told": "Tell{whom} and ask back later",
    "told": "Ask{whom} back in own words{later}",
    "not-yet": "Tell{whom} again and ask back later",
    "too-soon": "Ask{whom} back in own words{later}",
    "another-nurse": "Ask{whom} back by another nurse, or on another day",
    "contact-needed": "Book a call within {hours:hour} of leaving, or ask{whom} back on another day",
    "trained-interpreter": "Book a trained interpreter and ask{whom} back",
    # cover
    "gap-nobody": "Find somebody to learn to manage {what}{stoma}",
    "gap-know": "Tell somebody what must be known before going home{stoma}, and ask back later",
    "visit-by": VISIT,
    "visit-change": "Book a nurse's visit for the change{stoma}",
    "visit-look": "Book a nurse's visit to look{stoma}, by {by}",
    "visit-topics": "Book a nurse's visit after leaving, to explain {count:topic}{stoma}",
    "no-room-for-visit":
        "Plan the change{stoma}, or the leaving, anew: a visit is wanted {hours} h before the first change is due",
    "leak-service": "Arrange a service that comes for a leak, with its hours and how soon it comes",
    "more-hours": "Find somebody who can do it {at} as well{stoma}",
    "ask-hours": "Ask at which hours {name} is there",
    # what must be in place
    "not-arranged": "Arrange {what}",
    "only-asked": "Ask again for {what}",
    "refused": "Find another way for {what}",
    "say-also": "Write down for {what}: {names}",
    "contact-not-in-time": "Book a first contact within {hours:hour} after leaving",
    "days-without-kit": "Arrange kit for {days:more day}, until the delivery {at}",
    "no-size": "Measure the {stoma}, and write its size down",
    "caution-open": "Tell the surgical team now: {sign}",
    "caution-told": "Ask the surgical team whether this is settled: {sign}",
    # what is not known
    "no-leaving": "Plan the day of leaving",
    "leaving-passed": "Plan the leaving anew, it was planned for {at}",
    "no-stoma": "Write the stoma down",
    "no-kit": "Write down the kit of the {stoma}",
    "no-change": "Write down when the {stoma} was last changed",
    "no-interval": "Ask how often the {stoma} is changed, and write it down",
    "no-teaching-here": "Teach one step, and sign it",
    "not-fresh": "Ask how it goes, and see one step",
    # moves of the plan
    "move-practice": "Practise on a model or with water in the pouch{stoma}",
    "move-seen": "Book the stoma nurse, or a nurse signed off to teach, for the change {at}{stoma}",
    "move-find-helper": "Find somebody to learn it too, who is there day and night",
    "move-helper": "Ask {name} to be there whenever it is taught",
    "move-visit": VISIT,
    "move-visit-time": "Book the nurse's visit at another time{stoma}, after {since} and by {by}",
    "move-morning": "Ask the stoma nurse whether to change on the morning of leaving{stoma}, {at}",
    "move-extra":
        "Ask the stoma nurse about one extra change to teach by{stoma}, from {at} on, if the skin is good",
}  # fmt: skip
NOUNS = {FACILITY: "a nurse there who accepts the stoma's care"}
MOVED_BY = {"practice": "ward-nurse"}
ASKED_BACK = ("told", "too-soon")


def act_of_gap(chart: Chart, gap: Gap, now: datetime) -> str:
    """The first way to close it; the gap itself where nobody has named one."""
    way = gap.ways[0] if gap.ways else Way("ward-nurse", gap.reason)
    stoma = which(chart, chart.stoma(gap.stoma)) if gap.part in ROWS_OF else ""
    later = _later(chart, way.reason, now)
    known = {"stoma": stoma, "later": later, **_learning(chart, way, stoma), **way.reason.parameters}
    if "what" in known:
        known["what"] = NOUNS.get(gap.code, lowered(known["what"]))
    by = way.by if way.by and way.by > now and "by" not in way.reason.parameters else None
    tail = "" if gap.part == "caution" else _tail(chart, way.who, by)
    return f"{filled(ACTS[way.reason.code], known)}{_listed(chart, way.rows)}{tail}."


def act_of_move(chart: Chart, move: Move, planned: datetime | None) -> str:
    """With the planned moment, where the move names none of its own."""
    known = move.reason.parameters
    timed = "by" in known or "at" in known
    tail = _tail(chart, MOVED_BY.get(move.code, "planner"), None if timed else planned)
    return f"{filled(ACTS[move.reason.code], known)}{tail}."


def _learning(chart: Chart, way: Way, stoma: str) -> dict[str, str]:
    """The procedure, and the learner where there is more than one."""
    learner = chart.learner(way.learner) if way.learner else None
    named = _named(learner) if learner and len(chart.learners) > 1 else ""
    return {
        "doing": f"{lowered(PROCEDURES.get(way.procedure, ''))}{stoma}",
        "to": f"{named} " if named else "",
        "by": f" by {named}" if named else "",
        "whom": f" {named}" if named else "",
        "learner": _named(learner) if learner else "",
    }


def _later(chart: Chart, reason: Reason, now: datetime) -> str:
    """What keeps it from being done at once; "" where nothing does any more."""
    known, local = reason.parameters, chart.ward.local
    if reason.code in ASKED_BACK and now < known["since"]:
        return filled(", from {since} on", known)
    if reason.code == "once-more-another-time" and now - known["at"] < known["hours"] * HOUR:
        since = known["at"].astimezone(UTC) + known["hours"] * HOUR
        return filled(", in another shift or from {since} on", {"since": local(since)})
    if reason.code == "once-more-another-date" and local(now).date() == known["at"].date():
        return ", on another date"
    return ""


def _named(learner: Learner) -> str:
    return learner.name or learner.relation or ("the helper" if learner.kind == "helper" else "the person")


def lowered(words: str) -> str:
    return words[:1].lower() + words[1:]


def _listed(chart: Chart, codes: tuple[str, ...]) -> str:
    """The first few steps or topics, and how many more."""
    titles = [chart.checklist.by_code[code].title for code in codes]
    if len(titles) > NAMED_STEPS:
        titles[NAMED_STEPS - 1 :] = [f"and {len(titles) - NAMED_STEPS + 1} more"]
    return f": {'; '.join(titles)}" if titles else ""


def _tail(chart: Chart, who: str, by: datetime | None) -> str:
    """Such as " (a nurse at the bedside, by Thu 14 May 12:00)"."""
    return f" ({CLOSERS[who]}{filled(', by {by}', {'by': chart.ward.local(by)}) if by else ''})"
