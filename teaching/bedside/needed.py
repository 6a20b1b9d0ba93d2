"""Still needed, in sentences: for each stoma and learner, procedure by procedure, the rows that are not held."""

from collections.abc import Iterable
from dataclasses import dataclass

from teaching.bedside.band import stoma_name
from teaching.bedside.which import learner_name
from teaching.rules.assess import Assessment, Conclusion
from teaching.rules.facts import Chart
from teaching.rules.progress import begun_words
from teaching.rules.reasons import words
from teaching.rules.standing import Standing
from teaching.rules.vocabulary import PROCEDURES


@dataclass(frozen=True, slots=True)
class Line:
    """Rows that are not held and need the same, and what that is."""

    titles: tuple[str, ...]
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class NeededProcedure:
    """`said` is the procedure in one sentence; `lines` only where something of it was begun."""

    title: str
    said: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Needed:
    whose: str
    procedures: tuple[NeededProcedure, ...]


def still_needed(chart: Chart, assessment: Assessment, person: str) -> list[Needed]:
    """The person first. Everything of a learner who has begun nothing is one sentence a procedure."""
    grouped: dict[tuple[str, str], list[Conclusion]] = {}
    for conclusion in assessment.conclusions:
        grouped.setdefault((conclusion.stoma, conclusion.learner), []).append(conclusion)
    return [
        Needed(
            whose(chart, stoma, learner, person, always=len(grouped) > 1),
            tuple(_procedure(assessment, conclusion) for conclusion in own),
        )
        for (stoma, learner), own in grouped.items()
    ]


def _procedure(assessment: Assessment, conclusion: Conclusion) -> NeededProcedure:
    rows = [one for one in assessment.standings if _of(one, conclusion) and one.row.essential]
    lines = [one for one in rows if not one.held]
    begun = any(one.last for one in rows)
    kind = "topic" if conclusion.procedure == "topics" else "step"
    kind += "" if len(rows) == 1 else "s"
    if not lines:
        said = "held now" if len(rows) == 1 else f"all {len(rows)} {kind} held now"
    elif not begun:
        lent = f"; {conclusion.held} held by what another procedure showed" if conclusion.held else ""
        said = f"not started, {len(rows)} {kind}{lent}"
    else:
        said = begun_words(assessment, conclusion) or _held(conclusion, kind)
    return NeededProcedure(PROCEDURES[conclusion.procedure], said, _lines(lines) if begun else ())


def _held(conclusion: Conclusion, kind: str) -> str:
    if not conclusion.held:
        return f"none of {conclusion.essential} {kind} held yet"
    return f"{conclusion.held} of {conclusion.essential} {kind} held"


def _lines(standings: list[Standing]) -> tuple[Line, ...]:
    """Rows with the same reasons are said together, in the order of teaching."""
    together: dict[tuple[str, ...], list[str]] = {}
    for standing in standings:
        together.setdefault(because(standing), []).append(standing.row.item.title)
    return tuple(Line(tuple(titles), reasons) for reasons, titles in together.items())


def _of(standing: Standing, conclusion: Conclusion) -> bool:
    here = (standing.stoma, standing.learner, standing.row.item.procedure)
    return here == (conclusion.stoma, conclusion.learner, conclusion.procedure)


def because(standing: Standing) -> tuple[str, ...]:
    return tuple(words(reason) for reason in standing.reasons)


def whose(chart: Chart, stoma: str, learner: str, person: str, *, always: bool = False) -> str:
    """Such as "a helper, husband; end colostomy, left"; "" for the person with one stoma, unless `always`."""
    who = chart.learner(learner)
    parts: Iterable[str] = (
        learner_name(who, person) if who.kind == "helper" or always else "",
        stoma_name(chart.stoma(stoma)) if len(chart.stomas) > 1 else "",
    )
    return "; ".join(part for part in parts if part)
