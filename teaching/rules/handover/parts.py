"""What a handover is made of. Every word is ready to be read aloud; times are on the ward's own clock."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Protocol

from teaching.rules.band import day_words, place_words
from teaching.rules.board import Begun
from teaching.rules.huddle import HuddleCaution
from teaching.rules.reasons import Reason


def capital(words: str) -> str:
    return words[:1].upper() + words[1:]


@dataclass(frozen=True, slots=True)
class Line:
    """One thing said, without its full stop. `label` is what it is about; `mark` an answer drawn before the words.

    `more` follows on screen and paper; `brief` lines, without it, make up the text for the hospital's own record.
    """

    words: str
    label: str = ""
    mark: str = ""
    practice: bool = False
    brief: bool = True
    more: str = ""

    @property
    def said(self) -> str:
        """Such as "Emptying: alone twice (Mon 18:10)."."""
        return f"{self.label}: {self.sentence}" if self.label else self.sentence

    @property
    def sentence(self) -> str:
        """The words with their full stop; where nothing stands before them, with a capital."""
        words = self.words if self.label else capital(self.words)
        return words if words.endswith((".", "?")) else f"{words}."


@dataclass(frozen=True, slots=True)
class Part:
    letter: str
    title: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Who:
    """The person by two identifiers, and where they lie. `language` is a name, "" where it is not known."""

    name: str
    born: date
    number: str
    bed: str
    language: str = ""

    @property
    def birthday(self) -> str:
        return day_words(self.born)

    @property
    def place(self) -> str:
        return place_words(self.bed)


class Readiness(Protocol):
    """What the rules of going home say, where they were asked: the result in words, and what is in the way."""

    @property
    def result(self) -> str: ...

    @property
    def gaps(self) -> Sequence[Reason]: ...


@dataclass(frozen=True, slots=True)
class Judged:
    """A readiness as a handover is told it."""

    result: str
    gaps: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Beside:
    """What a handover is told beside the chart: numbers to ring (label, number, hours), entries not signed, and
    when an entry was last corrected or taken back (UTC). `plan` are the plan's own sentences.
    """

    phones: tuple[tuple[str, str, str], ...] = ()
    begun: tuple[Begun, ...] = ()
    amended_at: datetime | None = None
    readiness: Readiness | None = None
    plan: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Handover:
    """One person's handover. `standing` says in words what of it is not final: a draft, an amended entry."""

    who: Who
    stomas: str
    at: str
    cautions: tuple[HuddleCaution, ...]
    parts: tuple[Part, ...]
    standing: tuple[str, ...] = field(default=())

    @property
    def call_now(self) -> bool:
        return any(caution.call_now for caution in self.cautions)

    @property
    def text(self) -> str:
        """The short plain text for the hospital's own record: cautions first, then S, B, A and R."""
        who = self.who
        said = [
            f"Stoma teaching handover, {self.at}",
            f"{who.name}, born {who.birthday}, number {who.number}, {who.place}. {capital(self.stomas)}.",
            *(f"{caution.list.upper()}: {caution.words}, {caution.state}." for caution in self.cautions),
            *self.standing,
        ]
        for part in self.parts:
            brief = [line.said for line in part.lines if line.brief]
            said.append(f"{part.letter}: {' '.join(brief)}")
        return "\n".join(said)
