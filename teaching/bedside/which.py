"""Tap one: which stoma and which learner. Nothing is chosen before somebody taps."""

from collections.abc import Mapping
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


def procedure_of(chart: Chart, stoma: Stoma, now: datetime, offered: Mapping[str, str]) -> str:
    """The first of these procedures whose feature this stoma has; "" where it has none."""
    present = features(stoma, kit_at(chart, stoma.key, now), states_at(chart, stoma.key, now))
    return next((procedure for feature, procedure in offered.items() if feature in present), "")


def emptied_by(chart: Chart, stoma: Stoma, now: datetime) -> str:
    """How this stoma's pouch is emptied: emptying, urine or swap; "" where no kit is written down."""
    return procedure_of(chart, stoma, now, EMPTYING)


def choices(chart: Chart, now: datetime, offered: Mapping[str, str] = EMPTYING) -> list[Which]:
    """Every stoma that has one of these procedures, with everyone who may be taught: the person first."""
    people = sorted(chart.learners, key=lambda learner: (learner.kind != "person", learner.name))
    return [
        Which(stoma, learner, procedure)
        for stoma in chart.stomas
        if (procedure := procedure_of(chart, stoma, now, offered))
        for learner in people
        if has_agreed(chart, learner, now)
    ]


def not_offered(chart: Chart, person: str, now: datetime, offered: Mapping[str, str], without: str) -> list[str]:
    """Why a stoma or a learner is not among the choices."""
    said = [
        f"The {stoma_name(stoma)}: {without}." for stoma in chart.stomas if not procedure_of(chart, stoma, now, offered)
    ]
    return said + [
        f"{learner_name(learner, person)}: not both have said yes yet."
        for learner in chart.learners
        if not has_agreed(chart, learner, now)
    ]
