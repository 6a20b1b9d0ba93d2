"""Which level of help was it? Asked by effort and by cue, for whoever is unsure.

The levels are the six-level scale of CMS Section GG (public; LOINC answer list LL4681-4). "Exactly half" is named
by neither 03 nor 02: we read it as 02 (common practice, no source).
"""

from dataclasses import dataclass

from teaching.rules.vocabulary import SET_UP_ONLY, UNAIDED

HALF = 0.5


def level_for(effort: float = 0, *, two_helpers: bool = False, cue: bool = False, set_up: bool = False) -> str:
    """The level by what the helper did. `effort`: the helper's share of the work, from 0 (none) to 1 (all of it).

    `cue`: a word, a sign or a steadying touch was needed. `set_up`: laid out before, or cleared up after.
    Raises ValueError for a share outside 0 to 1.
    """
    if not 0 <= effort <= 1:
        raise ValueError(f"The helper's share of the work is from 0 to 1; {effort} is not.")
    if two_helpers or effort == 1:
        return "01"
    if effort >= HALF:
        return "02"
    if effort:
        return "03"
    if cue:
        return "04"
    return SET_UP_ONLY if set_up else UNAIDED


@dataclass(frozen=True, slots=True)
class Said:
    """One thing a nurse may say of the help given, and the level it comes to."""

    words: str
    level: str


@dataclass(frozen=True, slots=True)
class Question:
    ask: str
    answers: tuple[Said, ...]


LESS, MORE = 0.25, 0.75  # any share on that side of half will do

QUESTIONS = (
    Question("Did you put a hand to the work itself? How much of it was yours?", (
        Said("Two of us were needed", level_for(two_helpers=True)),
        Said("All of it", level_for(1)),
        Said("More than half", level_for(MORE)),
        Said("Half and half", level_for(HALF)),
        Said("Less than half", level_for(LESS)),
    )),
    Question("None of it? Then what did they need from you?", (
        Said("A word, a sign or a steadying touch", level_for(cue=True)),
        Said("Only setting out before, or clearing up after", level_for(set_up=True)),
        Said("Nothing: I watched and said nothing", level_for()),
    )),
)  # fmt: skip
