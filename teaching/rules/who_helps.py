"""Each helper in words: both yeses and when, and the hours they are there. For a page and a paper alike.

Who said no, or was not asked, is private to the two of them: until both have said yes, only that stands there.
"""

from collections.abc import Iterator
from datetime import datetime

from teaching.rules.facts import Chart, Learner
from teaching.rules.handover.helper_hours import hours_there
from teaching.rules.readiness_said import Say
from teaching.rules.scene import has_agreed, newest_consent
from teaching.rules.spoken import learner_name

NOT_COUNTED = "not counted until both have said yes"


def helpers_said(chart: Chart, person: str, now: datetime, say: Say) -> Iterator[tuple[str, str]]:
    """(name, what is said) of each helper, by name. `say` tells a moment; `person` is how the one helped is named."""
    helpers = (one for one in chart.learners if one.kind == "helper")
    for helper in sorted(helpers, key=lambda one: (one.name, one.key)):
        told = [
            *(_yeses(chart, helper, person, now, say) if has_agreed(chart, helper, now) else [NOT_COUNTED]),
            hours_there(helper, chart.ward, now, say),
        ]
        yield learner_name(helper, person), "; ".join(part for part in told if part)


def _yeses(chart: Chart, helper: Learner, person: str, now: datetime, say: Say) -> Iterator[str]:
    for whose, who in (("person", person), ("helper", helper.name or "the helper")):
        if said := newest_consent(chart, helper, whose, now):
            yield f"{who} said yes {say(said.at)}"
