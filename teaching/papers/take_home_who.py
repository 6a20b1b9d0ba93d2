"""Who does what at home, as the record shows it; where it shows nobody, a line to fill in by hand."""

from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart, Stoma
from teaching.rules.scene import has_agreed

TASKS = {
    "emptying": "Who empties it", "urine": "Who empties it", "swap": "Who swaps it", "change": "Who changes it",
    "night": "Who does the night bag",
}  # fmt: skip
ME, A_NURSE, BY_HAND = "me", "a nurse", "................................"


def who_does_what(
    chart: Chart, assessment: Assessment, stoma: Stoma, now: datetime, nurse_comes: bool
) -> list[tuple[str, str]]:
    """(task, who), in the order of TASKS. `nurse_comes` for the next change, by the time it is due."""
    found = []
    for procedure, task in TASKS.items():
        own = [one for one in assessment.conclusions if (one.stoma, one.procedure) == (stoma.key, procedure)]
        if own:
            found.append((task, _who(chart, own, procedure, now, nurse_comes)))
    return found


def _who(chart: Chart, own: list, procedure: str, now: datetime, nurse_comes: bool) -> str:
    able = [chart.learner(one.learner) for one in own if one.held == one.essential]
    able = [one for one in able if has_agreed(chart, one, now)]
    if any(one.kind == "person" for one in able):
        return ME
    if able:
        return " or ".join(sorted(one.name or one.relation for one in able))
    return A_NURSE if procedure == "change" and nurse_comes else BY_HAND
