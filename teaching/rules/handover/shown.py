"""A: what each learner was seen to do, procedure by procedure; topics in own words; what was last seen of the stoma."""

from collections.abc import Iterable
from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart, Rating
from teaching.rules.handover.parts import Line
from teaching.rules.handover.seen import seen
from teaching.rules.handover.steps import steps
from teaching.rules.handover.talk import talk
from teaching.rules.spoken import learner_name
from teaching.rules.standing import Standing
from teaching.rules.vocabulary import PROCEDURES


def shown(chart: Chart, assessment: Assessment, now: datetime, person: str) -> tuple[Line, ...]:
    """The person before a helper. Procedures of which nothing was seen or told make one line: a row may be held on
    what another procedure lends, and that is said there.
    """
    lines: list[Line] = []
    for stoma in chart.stomas:
        for learner in sorted(chart.learners, key=lambda one: (one.kind != "person", one.name)):
            own = [one for one in assessment.standings if (one.stoma, one.learner) == (stoma.key, learner.key)]
            whose = _whose(chart, stoma.label, learner_name(learner, person), learner.kind)
            not_begun = []
            for procedure in dict.fromkeys(one.row.item.procedure for one in own):
                rows = [one for one in own if one.row.item.procedure == procedure]
                told = _reported(chart, rows)
                if not any(one.last for one in rows) and not told:
                    not_begun.append(PROCEDURES[procedure])
                elif procedure == "topics":
                    lines += talk(chart, rows, f"Topics{whose}", now)
                else:
                    lines += steps(chart, rows, told, f"{PROCEDURES[procedure]}{whose}", now)
            if not_begun:
                lines.append(Line(f"nothing yet of {', '.join(not_begun).lower()}", f"Not begun{whose}"))
        lines += seen(chart, stoma, now)
    if not any(learner.kind == "person" for learner in chart.learners):
        lines.append(Line("the person is not written down as a learner", "Not known"))
    return tuple(lines)


def _whose(chart: Chart, label: str, name: str, kind: str) -> str:
    parts = [name] if kind == "helper" else []
    parts += [label] if len(chart.stomas) > 1 else []
    return f" ({'; '.join(parts)})" if parts else ""


def _reported(chart: Chart, rows: Iterable[Standing]) -> list[Rating]:
    """What was told and not seen of these rows: it shows, and never counts."""
    keys = {(one.stoma, one.code, one.learner) for one in rows}
    return [one for one in chart.ratings if one.reported and (one.stoma, one.code, one.learner) in keys]
