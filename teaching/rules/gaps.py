"""Each gap in a sentence, with who could close it and by when. "Not yet" is information: it says what would do."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.caps import short_wear
from teaching.rules.cover import HOUR, hours_said
from teaching.rules.facts import Caution, Chart, Learner, Stoma
from teaching.rules.hands import Situation
from teaching.rules.holding import ALONE_HERE
from teaching.rules.home import NURSING, PARTS, hours_covered, unexplained, wanted_hours
from teaching.rules.in_place import Lacking
from teaching.rules.reasons import Reason

CLOSERS = {
    "ward-nurse": "a nurse at the bedside",
    "stoma-nurse": "the stoma nurse, or a nurse signed off to teach",
    "planner": "whoever plans the leaving",
    "team": "the surgical team",
    "pharmacist": "the pharmacist",
}
ROWS_OF = {
    "pouch": ("pouch",), "night": ("night",), "leak": ("change",), "change": ("change", "look"), "look": ("look",),
    "topics": ("topics",), "know": ("know",), "wear": (),
}
BY_SIGNED_OFF = ("confirm-change",)


@dataclass(frozen=True, slots=True)
class Way:
    """One way to close a gap: who (of CLOSERS), what, by when (UTC; None: not known, as no leaving is planned).

    Where a learner is to show or explain something: which rows of which procedure.
    """

    who: str
    reason: Reason
    by: datetime | None = None
    learner: str = ""
    procedure: str = ""
    rows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Gap:
    """What is wanting, and the ways to close it. `part` is of home.PARTS, or know, arrangement, caution, leaving,
    teaching, stoma or due; `stoma` "" where it concerns the whole person; `code` names the arrangement or sign.
    """

    part: str
    reason: Reason
    ways: tuple[Way, ...] = ()
    stoma: str = ""
    code: str = ""


def gaps_of_stoma(situation: Situation, stoma: Stoma, bare: Iterable[str], unknowing: bool, best: bool) -> list[Gap]:
    """One gap a part; `unknowing`: what must be known is all that is wanting for what else would be held."""
    found = [_know(situation, stoma)] if unknowing else []
    parts = tuple(bare)
    for part in parts:
        if part == "look" and "change" in parts:
            continue  # who does the change looks too
        ways = [] if part == "leak" and "change" in parts else list(_teach(situation, stoma, part, best))
        reason, others = _said(situation, stoma, part, best)
        found.append(Gap(part, reason, (*ways, *others), stoma.key))
    return found


def which(chart: Chart, stoma: Stoma) -> str:
    """Which stoma, where there are two to tell apart: put before the full stop of a sentence."""
    return f", {stoma.label} stoma" if len(chart.stomas) > 1 else ""


def of_arrangement(lacking: Lacking, by: datetime | None) -> Gap:
    ways = (Way(lacking.kind.who, lacking.reason, by),)
    return Gap("arrangement", lacking.reason, ways, code=lacking.kind.code)


def of_caution(caution: Caution, now: datetime) -> Gap:
    reason = Reason("caution-told" if caution.told else "caution-open", sign=caution.words)
    return Gap("caution", reason, (Way("team", reason, now),), caution.stoma, caution.sign)


def _know(situation: Situation, stoma: Stoma) -> Gap:
    reason = Reason("gap-know", stoma=which(situation.chart, stoma))
    ways = tuple(_teach(situation, stoma, "know", best=False))
    return Gap("know", reason, ways, stoma.key)


def _teach(situation: Situation, stoma: Stoma, part: str, best: bool) -> Iterator[Way]:
    """What each learner is still to show or explain, told once a reason."""
    for learner in situation.learners:
        by_part = situation.rows.get((stoma.key, learner.key), {})
        rows = [row for each in ROWS_OF[part] for row in by_part.get(each, ())]
        wanting: dict[tuple[str, Reason], list[str]] = {}
        for row in rows:
            if not row.held and not row.may_look and row.reasons and (not best or situation.proved(row)):
                wanting.setdefault((row.row.item.procedure, row.reasons[0]), []).append(row.code)
        for (procedure, reason), codes in wanting.items():
            who = "stoma-nurse" if reason.code in BY_SIGNED_OFF else "ward-nurse"
            yield Way(who, reason, situation.leaving, learner.key, procedure, tuple(codes))


def _said(situation: Situation, stoma: Stoma, part: str, best: bool) -> tuple[Reason, list[Way]]:
    label, local = which(situation.chart, stoma), situation.chart.ward.local
    planned = situation.leaving
    if part in ("pouch", "night", "leak"):
        return _of_hours(situation, stoma, part, best)
    if part == "topics":
        hands = situation.hands(stoma.key, True, True, best)
        count = len(unexplained(situation, stoma.key, hands))
        visit = Way("planner", Reason("visit-topics", count=count), planned)
        return Reason("gap-topics", count=count, stoma=label), [visit]
    if part == "wear":
        capped = short_wear(situation.chart, stoma.key, situation.policy, situation.now)
        assert capped is not None
        hours = situation.policy.wear_holds // HOUR
        reason = Reason("gap-wear", stoma=label, at=local(capped[0]), hours=hours, until=local(capped[1]))
        return reason, list(_visit(situation, stoma))
    due, to_change = situation.dues[stoma.key], part == "change"
    if due is None:
        visit = Way("planner", Reason("visit-change"), planned)
        return Reason("gap-change-some-time" if to_change else "gap-look-some-time", stoma=label), [visit]
    reason = Reason("gap-change" if to_change else "gap-look", stoma=label, at=local(due))
    if to_change:
        return reason, list(_visit(situation, stoma))
    return reason, [Way("planner", Reason("visit-look", by=local(due)), due)]


def _visit(situation: Situation, stoma: Stoma) -> Iterator[Way]:
    """A visit that comes in time, if there is still room for one between leaving and the margin before it is due."""
    due, leaving, local = situation.dues[stoma.key], situation.leaving, situation.chart.ward.local
    margin = situation.policy.visit_margin
    if due is None or leaving is None:
        yield Way("planner", Reason("visit-change"), leaving)
    elif due - margin >= leaving:
        by = due - margin
        since, hours = local(leaving), margin // HOUR
        yield Way("planner", Reason("visit-by", by=local(by), since=since, due=local(due), hours=hours), by)
    else:
        yield Way("ward-nurse", Reason("no-room-for-visit", hours=margin // HOUR), leaving)


def _of_hours(situation: Situation, stoma: Stoma, part: str, best: bool) -> tuple[Reason, list[Way]]:
    """Nobody who is counted holds it at all; or hours are bare, from the first of them."""
    label, local, planned = which(situation.chart, stoma), situation.chart.ward.local, situation.leaving
    hands = situation.hands(stoma.key, True, True, best)
    there = hours_covered(situation, hands, part, NURSING.nursing)
    bare = wanted_hours(situation, stoma.key, part) & ~there
    ways = [Way("planner", Reason("leak-service"), planned)] if part == "leak" else []
    if not there:
        return Reason("gap-nobody", what=PARTS[part], stoma=label), ways
    first = situation.span.hour((bare & -bare).bit_length() - 1)
    able = [one for one in hands if getattr(one.skill, part) == ALONE_HERE and one.skill.knows]
    if part != "leak" or able:
        ways.insert(0, Way("planner", Reason("more-hours", at=local(first)), planned))
    reason = Reason("gap-hours", what=PARTS[part], stoma=label, at=local(first), hours=bare.bit_count())
    return reason, ways


def unknown_of_stoma(situation: Situation, stoma: Stoma, bare: Iterable[str]) -> list[Gap]:
    """What is not known of these parts: rows out of date or never tried, and helpers whose hours nobody has said."""
    found = []
    unsaid = [one for one in situation.learners if not hours_said(one)]
    for part in bare:
        asks = [_ask_hours(one, situation.leaving) for one in unsaid]
        # What must be known may be what is not known, of any part by the hour.
        rows = [*_unknown(situation, stoma, part), *_unknown(situation, stoma, "know")]
        if rows or asks:  # else only the due time is wanting, which is told once
            reason = Reason("unknown-part", what=PARTS[part], stoma=which(situation.chart, stoma))
            found.append(Gap(part, reason, (*rows, *asks), stoma.key))
    return found


def _ask_hours(learner: Learner, by: datetime | None) -> Way:
    return Way("planner", Reason("ask-hours", name=learner.name or learner.relation or "The helper"), by, learner.key)


def _unknown(situation: Situation, stoma: Stoma, part: str) -> Iterator[Way]:
    for learner in situation.learners:
        by_part = situation.rows.get((stoma.key, learner.key), {})
        rows = [row for each in ROWS_OF[part] for row in by_part.get(each, ())]
        wanting: dict[tuple[str, Reason], list[str]] = {}
        for row in rows:
            if not row.held and not row.may_look and row.reasons and not situation.proved(row):
                wanting.setdefault((row.row.item.procedure, row.reasons[0]), []).append(row.code)
        for (procedure, reason), codes in wanting.items():
            yield Way("ward-nurse", reason, situation.leaving, learner.key, procedure, tuple(codes))
