"""S: since when there is a stoma, when the person leaves and where to, how far along they are, what stands out."""

from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.handover.parts import Beside, Line, Readiness
from teaching.rules.huddle import day_since, leaving_line
from teaching.rules.reasons import words
from teaching.rules.spoken import stoma_name
from teaching.rules.vocabulary import GOES_TO

SAID_ELSEWHERE = ("no-kit", "no-change", "no-interval", "interpreter", "call-first", "to-facility")  # where it belongs

SAID = 3  # of what is in the way


def situation(chart: Chart, assessment: Assessment, now: datetime, beside: Beside) -> tuple[Line, ...]:
    lines = [
        Line(f"{stoma_name(stoma)}; {day_since(stoma.formed_at, chart.ward, now)}", "Stoma") for stoma in chart.stomas
    ] or [Line("none written down yet", "Stoma")]
    lines.append(Line(leaving(chart, now), "Leaving"))
    if beside.readiness:
        lines.append(Line(_readiness(beside.readiness), "Readiness"))
    out = [words(reason) for reason in assessment.stands_out if reason.code not in SAID_ELSEWHERE]
    if out:
        lines.append(Line(" ".join(out), "Stands out"))
    if not assessment.cautions:
        lines.append(Line("none open, none told and waiting", "Cautions"))
    return tuple(lines)


def _readiness(found: Readiness) -> str:
    """The result and the first few of what is in the way; the rest is on the page of going home."""
    gaps = list(dict.fromkeys(words(gap) for gap in found.gaps))
    more = len(gaps) - SAID
    gaps = [*gaps[:SAID], f"And {more} more."] if more > 0 else gaps
    return " ".join([f"{found.result}.", *gaps])


def leaving(chart: Chart, now: datetime) -> str:
    said = leaving_line(chart.planned_at, chart.ward, now)
    return f"{said}, {GOES_TO[chart.goes_to]} (planned)" if chart.planned_at else said
