"""A blank practice form for a downtime: the rows and words of the screen, entered later beside the nurse."""

from dataclasses import dataclass

from teaching.rules.competence_facts import Skill
from teaching.rules.vocabulary import BONDY, PRACTICE_SETTINGS, PracticeLevel


@dataclass(frozen=True, slots=True)
class BlankPractice:
    skill: Skill
    unit: str
    printed_at: str
    printed_by: str

    levels: tuple[tuple[str, PracticeLevel], ...] = tuple(BONDY.items())

    @property
    def settings(self) -> tuple[str, ...]:
        """Those that count for this skill, in the order of the screen."""
        return tuple(words for code, words in PRACTICE_SETTINGS.items() if code in self.skill.settings)

    @property
    def foot(self) -> str:
        return (
            f"Blank practice form, {self.skill.title.lower()}, version {self.skill.version}. Printed {self.printed_at} "
            f"by {self.printed_by}. Rate only what you saw: X is not observed, never a level."
        )
