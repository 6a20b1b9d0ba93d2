"""Each helper in words: what both said to it and when, and the hours they are there. For a page and a paper alike."""

from collections.abc import Iterator
from datetime import datetime

from teaching.rules.facts import Chart, Learner
from teaching.rules.handover.helper_hours import hours_there
from teaching.rules.readiness_said import Say
from teaching.rules.scene import has_agreed, newest_consent
from teaching.rules.spoken import learner_name


def helpers_said(chart: Chart, person: str, now: datetime, say: Say) -> Iterator[tuple[str, str]]:
    """(name, what is said) of each helper, by name. `say` tells a moment; `person` is how the one helped is named."""
    helpers = (one for one in chart.learners if one.kind == "helper")
    for helper in sorted(helpers, key=lambda one: (one.name, one.key)):
        told = [
            _agreed(chart, helper, "person", person, now, say),
            _agreed(chart, helper, "helper", helper.name or "the helper", now, say),
            *([] if has_agreed(chart, helper, now) else ["not counted until both have said yes"]),
            hours_there(helper, chart.ward, now, say),
        ]
        yield learner_name(helper, person), "; ".join(part for part in told if part)


def _agreed(chart: Chart, helper: Learner, whose: str, who: str, now: datetime, say: Say) -> str:
    said = newest_consent(chart, helper, whose, now)
    if said is None:
        return f"{who} has not been asked"
    return f"{who} said {'yes' if said.yes else 'no'} {say(said.at)}"
