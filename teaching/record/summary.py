"""What a board keeps of an assessment, as plain JSON, and back again as the board's own row."""

from collections.abc import Iterable
from dataclasses import asdict, fields
from datetime import datetime
from typing import Any

from teaching.rules.arrangements import FACILITY
from teaching.rules.assess import Assessment, Conclusion
from teaching.rules.board import Begun, BoardRow, Due
from teaching.rules.facts import Caution, Chart, Stoma
from teaching.rules.progress import UNSEEN, begun_words
from teaching.rules.reasons import words
from teaching.rules.scene import has_agreed
from teaching.rules.standing import Standing
from teaching.rules.vocabulary import PROCEDURES

MOMENTS = {"at", "told", "settled", "look_again_at", "formed_at"}
SAID_AS = {"independent": "alone"}


def summary(chart: Chart, assessment: Assessment) -> dict[str, Any]:
    """Stomas, running cautions, what is due, one sentence of standing, one aim and who learns."""
    aim = assessment.aims[0] if assessment.aims else None
    return {
        "stomas": [_plain(stoma) for stoma in chart.stomas],
        "cautions": [_plain(caution) for caution in assessment.cautions],
        "due": [
            _plain(Due("change", change.due, chart.stoma(change.stoma).label if len(chart.stomas) > 1 else ""))
            for change in assessment.changes
            if change.due
        ],
        "standing": _standing(chart, assessment),
        "aim": _aim(chart, aim) if aim else "",
        "aim_because": words(aim.reasons[0]) if aim and aim.reasons else "",
        "waits": words(assessment.waits) if assessment.waits else "",
        "only_booked": chart.goes_to == FACILITY,
        "helper": _helpers(chart, assessment.at),
    }


def row_of(kept: Any, told: dict[str, Any], begun: Iterable[Begun]) -> BoardRow:
    """A board's row from a row of stay_now and a summary (its own, or one worked out in memory)."""
    return BoardRow(
        stay=str(kept.stay__uid),
        bed=kept.bed,
        name=kept.name,
        mrn=kept.mrn,
        stomas=tuple(_made(Stoma, each) for each in told["stomas"]),
        cautions=tuple(_made(Caution, each) for each in told["cautions"]),
        due=tuple(_made(Due, each) for each in told["due"]),
        standing=told["standing"],
        aim=told["aim"],
        aim_because=told["aim_because"],
        waits=told.get("waits", ""),
        only_booked=told.get("only_booked", False),
        helper=told["helper"],
        begun=tuple(begun),
        planned_at=kept.planned_at,
        paused=kept.state == "paused",
    )


def next_due(assessment: Assessment) -> datetime | None:
    return min((change.due for change in assessment.changes if change.due), default=None)


def _standing(chart: Chart, assessment: Assessment) -> str:
    """Such as "Emptying: alone. Pouch change: learning, 3 of 18 steps held." Only what has been begun."""
    person = {learner.key for learner in chart.learners if learner.kind == "person"}
    own = [one for one in assessment.conclusions if one.learner in person and one.procedure != "topics"]
    said = [_concluded(chart, assessment, one) for one in own if one.begun]
    return " ".join(said) or "Nothing shown yet."


def _concluded(chart: Chart, assessment: Assessment, one: Conclusion) -> str:
    where = f" ({chart.stoma(one.stoma).label})" if len(chart.stomas) > 1 else ""
    if one.state == UNSEEN:
        return f"{PROCEDURES[one.procedure]}{where}: {begun_words(assessment, one)}."
    state = SAID_AS.get(one.state, one.state)
    held = f", {one.held} of {one.essential} steps held" if 0 < one.held < one.essential else ""
    return f"{PROCEDURES[one.procedure]}{where}: {state}{held}."


def _aim(chart: Chart, aim: Standing) -> str:
    learner = chart.learner(aim.learner)
    return (
        f"{aim.row.item.title} ({learner.relation or learner.name})" if learner.kind == "helper" else aim.row.item.title
    )


def _helpers(chart: Chart, now: datetime) -> str:
    learning = [
        f"{each.name}, {each.relation}" if each.relation else each.name
        for each in chart.learners
        if each.kind == "helper" and has_agreed(chart, each, now)
    ]
    return f"{' and '.join(learning)} learning too" if learning else ""


def _plain(fact: Any) -> dict[str, Any]:
    return {
        name: value.isoformat() if isinstance(value, datetime) else value
        for name, value in asdict(fact).items()
        if value not in (None, "", False)
    }


def _made(kind: Any, told: dict[str, Any]) -> Any:
    known = {field.name for field in fields(kind)}
    return kind(
        **{
            name: datetime.fromisoformat(value) if name in MOMENTS else value
            for name, value in told.items()
            if name in known
        }
    )
