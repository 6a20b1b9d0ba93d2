"""How people, stomas and kit are named, the same on every screen and paper."""

from collections.abc import Iterable
from datetime import timedelta

from teaching.rules.facts import Chart, Kit, Learner, Stoma
from teaching.rules.vocabulary import (
    CLOSURES,
    CONSTRUCTIONS,
    KIT_ITEMS,
    OPENINGS,
    OUTLETS,
    OWN_LANGUAGE,
    PIECES,
    SHAPES,
    SIDES,
    STOMA_KINDS,
    can_be_rung,
)

LANGUAGES = {
    "en": "English",
    "ar": "Arabic",
    "bn": "Bengali",
    "zh": "Chinese",
    "fr": "French",
    "de": "German",
    "hi": "Hindi",
    "pl": "Polish",
    "pt": "Portuguese",
    "ro": "Romanian",
    "ru": "Russian",
    "es": "Spanish",
    "tl": "Tagalog",
    "tr": "Turkish",
    "uk": "Ukrainian",
    "ur": "Urdu",
    "vi": "Vietnamese",
    "other": "another language",
}
HOUR = timedelta(hours=1)
MINUTE = timedelta(minutes=1)


def stoma_name(stoma: Stoma) -> str:
    """Such as "loop ileostomy, right"; without the side where nobody has said."""
    base = f"{CONSTRUCTIONS[stoma.construction]} {STOMA_KINDS[stoma.kind]}"
    return f"{base}, {SIDES[stoma.side]}" if stoma.side else base


def other_language(chart: Chart) -> str:
    """The language to teach the person in, where it is not the ward's own; else ""."""
    return "" if chart.language in ("", OWN_LANGUAGE) else LANGUAGES.get(chart.language, LANGUAGES["other"])


def learner_name(learner: Learner, person: str) -> str:
    """The person by their name; a helper by name and what they are to the person."""
    if learner.kind == "person":
        return person
    return f"{learner.name}, {learner.relation}" if learner.relation else learner.name


def how_many(count: int, one: str, many: str = "") -> str:
    """Such as "1 line", "3 lines"; `many` where it is not `one` with an s."""
    return f"{count} {one if count == 1 else many or f'{one}s'}"


def hours(span: timedelta) -> str:
    """Whole hours; under one, minutes."""
    return f"{span // HOUR} h" if span >= HOUR else f"{span // MINUTE} min"


def kit_words(kit: Kit) -> str:
    """Such as "two-piece, flat, cut to fit, drainable with strip outlet; ring, strip or paste"."""
    outlet = f" with {OUTLETS[kit.outlet]}" if kit.outlet in OUTLETS and kit.closure == "drainable" else ""
    base = f"{PIECES[kit.pieces]}, {SHAPES[kit.shape]}, {OPENINGS[kit.opening]}, {CLOSURES[kit.closure]}{outlet}"
    items = [KIT_ITEMS[item] for item in KIT_ITEMS if item in kit.items]
    return "; ".join([base, *items])


def rung(phones: Iterable[tuple[str, str, str]]) -> tuple[tuple[str, str, str], ...]:
    """Of a unit's numbers (label, number, hours) those that can be rung: no paper prints another."""
    return tuple(one for one in phones if can_be_rung(one[1]))
