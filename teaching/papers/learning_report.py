"""What a unit's people stumble on, and what two nurses read differently, on paper; nobody is named.

The sentences are those of the screen: `analysis/learning_said.py` and `analysis/reading_said.py`.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from teaching.analysis.learning_said import LearningSaid, learning_said
from teaching.analysis.reading_apart import Reading
from teaching.analysis.reading_said import Line, Row, count_said, floor_said, lines, rows, talk_about
from teaching.analysis.unit_learning import UnitLearning
from teaching.rules.readiness import RESULTS


@dataclass(frozen=True, slots=True)
class AgreementPart:
    """What two nurses read differently; `lines`, `rows` and `questions` are empty while `floor` says why."""

    count: str
    floor: str
    lines: tuple[Line, ...]
    rows: tuple[Row, ...]
    questions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LearningReport:
    unit: str
    learned: LearningSaid
    agreement: AgreementPart
    printed_at: str
    printed_by: str
    policy: str

    @property
    def foot(self) -> str:
        return (
            f"Learning report, {self.unit}. Printed {self.printed_at} by {self.printed_by}. Policy version "
            f"{self.policy}. Counts of stays: no person, no nurse is named."
        )


def learning_report(
    *,
    found: UnitLearning,
    until: str,
    reading: Reading,
    titles: Mapping[str, str],
    unit: str,
    printed_at: str,
    printed_by: str,
    policy: str,
) -> LearningReport:
    """The report of what `found`, as it stood on the day `until`, and `reading` may show.

    `titles` are those of the unit's checklist, by code.
    """
    told = rows(reading, titles)
    return LearningReport(
        unit=unit,
        learned=learning_said(found, until, titles, RESULTS),
        agreement=AgreementPart(count_said(reading), floor_said(reading), lines(reading), told, talk_about(told)),
        printed_at=printed_at,
        printed_by=printed_by,
        policy=policy,
    )
