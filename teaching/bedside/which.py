"""Tap one: which stoma and which learner. Nothing is chosen before somebody taps."""

from dataclasses import dataclass
from datetime import datetime

from teaching.bedside.band import stoma_name
from teaching.rules.checklist import features, kit_at, states_at
from teaching.rules.facts import Chart, Learner, Stoma
from teaching.rules.scene import has_agreed
from teaching.rules.spoken import learner_name as learner_name

# The feature a stoma must have for a procedure to be recorded here.
EMPTYING = {"drainable": "emptying", "urostomy": "urine", "closed": "swap"}  # a swap takes its place


@dataclass(frozen=True, slots=True)
class Which:
    stoma: Stoma
    learner: Learner
    procedure: str

    @property
    def value(self) -> str:
        return f"{self.stoma.key}:{self.learner.key}"


def emptied_by(chart: Chart, stoma: Stoma, now: datetime) -> str:
    """How this stoma's pouch is emptied: emptying, urine or swap; "" where no kit is written down."""
    present = features(stoma, kit_at(chart, stoma.key, now), states_at(chart, stoma.key, now))
    return next((procedure for feature, procedure in EMPTYING.items() if feature in present), "")


def choices(chart: Chart, now: datetime) -> list[Which]:
    """Every stoma that is emptied, with everyone who may be taught: the person first."""
    people = sorted(chart.learners, key=lambda learner: (learner.kind != "person", learner.name))
    return [
        Which(stoma, learner, procedure)
        for stoma in chart.stomas
        if (procedure := emptied_by(chart, stoma, now))
        for learner in people
        if has_agreed(chart, learner, now)
    ]


def not_offered(chart: Chart, person: str, now: datetime) -> list[str]:
    """Why a stoma or a learner is not among the choices."""
    said = [
        f"The {stoma_name(stoma)}: no pouch is written down for it yet."
        for stoma in chart.stomas
        if not emptied_by(chart, stoma, now)
    ]
    return said + [
        f"{learner_name(learner, person)}: not both have said yes yet."
        for learner in chart.learners
        if not has_agreed(chart, learner, now)
    ]
