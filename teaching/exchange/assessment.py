"""An assessment as plain text for a terminal, and as JSON (docs/stay-file.md tells its keys)."""

from collections.abc import Iterator
from datetime import datetime
from typing import Any

from teaching.rules.assess import Assessment, Conclusion
from teaching.rules.facts import Caution, Chart, Rating
from teaching.rules.reasons import Reason, words
from teaching.rules.standing import Standing
from teaching.rules.vocabulary import CAUTION_LISTS, GRADES, PROCEDURES

# How a showing is said in one word or two: what was answered then.
SHOWN = {
    "06": "alone", "05": "set out only", "right": "judged rightly", "not_needed": "judged not needed", "told": "told",
    "own_words": "own words",
}


def as_text(chart: Chart, found: Assessment) -> Iterator[str]:
    """Lines to read from top to bottom: what stands out, cautions, teach next, then row by row with reasons."""
    yield f"Stay {chart.stay}, judged at {_said(chart, found.at)}"
    yield f"Rules {found.rules_version}, policy {found.policy_version}"
    yield f"Holds until {_said(chart, found.holds_until)}, if nothing new is recorded."
    yield from _part("What stands out", [words(reason) for reason in found.stands_out])
    yield from _part("Cautions", [_caution(chart, one) for one in found.cautions])
    due = [f"{chart.stoma(one.stoma).label}: {_said(chart, one.due)}" for one in found.changes if one.due]
    yield from _part("Pouch change due", due)
    yield from _part("Teach next", [f'{_aim(chart, one)} Ask back: "{one.row.item.ask_back}"' for one in found.aims])
    for conclusion in found.conclusions:
        yield ""
        yield _heading(chart, conclusion)
        for one in found.standings:
            if (one.stoma, one.learner, one.row.item.procedure) == _key(conclusion):
                why = _why(one) if one.row.essential else f"(not a must) {_why(one)}"
                yield f"  {one.code:12} {one.state:26} {why}".rstrip()
                yield from (f"  {'':12} {_evidence(chart, one, rating)}" for rating in one.evidence)


def _part(title: str, lines: list[str]) -> Iterator[str]:
    yield ""
    yield f"{title}: {'nothing' if not lines else ''}".rstrip()
    yield from (f"  {line}" for line in lines)


def _key(conclusion: Conclusion) -> tuple[str, str, str]:
    return conclusion.stoma, conclusion.learner, conclusion.procedure


def _heading(chart: Chart, one: Conclusion) -> str:
    learner = chart.learner(one.learner)
    who = "the person" if learner.kind == "person" else learner.name or learner.key
    where = f", {chart.stoma(one.stoma).label}" if len(chart.stomas) > 1 else ""
    return f"{PROCEDURES[one.procedure]}, {who}{where}: {one.state} ({one.held} of {one.essential} held)"


def _why(one: Standing) -> str:
    return " ".join(words(reason) for reason in one.reasons)


def _aim(chart: Chart, one: Standing) -> str:
    learner = chart.learner(one.learner)
    who = "" if learner.kind == "person" else f" ({learner.name or learner.key})"
    return f"{one.row.item.title} [{one.code}]{who}. {_why(one)}"


def _evidence(chart: Chart, one: Standing, rating: Rating) -> str:
    """One showing the row rests on; it may be lent by another row, which is then named."""
    lent = f" in {rating.code}" if rating.code != one.code else ""
    practice = ", practice" if rating.practice else ""
    by = rating.witness.name or GRADES[rating.witness.grade]
    cosigned = ", co-signed" if rating.witness.cosigned_by else ""
    shown = SHOWN.get(rating.answer, rating.answer)
    return f"{shown}{lent}: {_said(chart, rating.at)}, {by}{cosigned}{practice}"


def _caution(chart: Chart, one: Caution) -> str:
    told = f"told {_said(chart, one.told)}, not settled" if one.told else "open, nobody told"
    return f"{CAUTION_LISTS[one.list]}: {one.words}, since {_said(chart, one.at)}; {told}"


def _said(chart: Chart, moment: datetime | None) -> str:
    return f"{chart.ward.local(moment):%a %Y-%m-%d %H:%M}" if moment else "no end"


def as_json(chart: Chart, found: Assessment) -> dict[str, Any]:
    """The same, for a program. Moments are ISO 8601 in UTC; null: not known, or never."""
    return {
        "stay": chart.stay,
        "at": _moment(found.at),
        "holds_until": _moment(found.holds_until),
        "rules_version": found.rules_version,
        "policy_version": found.policy_version,
        "stands_out": [_reason(reason) for reason in found.stands_out],
        "cautions": [
            {
                "sign": one.sign, "list": one.list, "words": one.words, "stoma": one.stoma, "at": _moment(one.at),
                "told": _moment(one.told), "answer": one.answer, "look_again_at": _moment(one.look_again_at),
            }
            for one in found.cautions
        ],
        "changes": [
            {
                "stoma": one.stoma, "last": _moment(one.last), "due": _moment(one.due),
                "unknown": _reason(one.unknown) if one.unknown else None,
            }
            for one in found.changes
        ],
        "aims": [
            {"stoma": one.stoma, "learner": one.learner, "code": one.code, "ask_back": one.row.item.ask_back}
            for one in found.aims
        ],
        "conclusions": [
            {
                "stoma": one.stoma, "learner": one.learner, "procedure": one.procedure, "state": one.state,
                "lowest": one.lowest.code, "held": one.held, "essential": one.essential,
            }
            for one in found.conclusions
        ],
        "rows": [_row(one) for one in found.standings],
    }


def _row(one: Standing) -> dict[str, Any]:
    return {
        "stoma": one.stoma,
        "learner": one.learner,
        "code": one.code,
        "essential": one.row.essential,
        "state": one.state,
        "lack": one.lack,
        "second_floor": one.second_floor,
        "provisional": one.provisional,
        "may_look": one.may_look,
        "evidence": [
            {
                "code": each.code, "at": _moment(each.at), "answer": each.answer, "practice": each.practice,
                "grade": each.witness.grade, "cosigned_by": each.witness.cosigned_by,
            }
            for each in one.evidence
        ],
        "reasons": [_reason(reason) for reason in one.reasons],
        "holds_until": _moment(one.holds_until),
    }


def _reason(reason: Reason) -> dict[str, str]:
    return {"code": reason.code, "words": words(reason)}


def _moment(moment: datetime | None) -> str | None:
    return moment.isoformat() if moment else None
