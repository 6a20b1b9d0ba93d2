"""A few words of the unit's own in the language somebody is taught in, until an interpreter is there."""

from dataclasses import dataclass

from teaching.record.places import settings_of
from teaching.rules.facts import Chart
from teaching.rules.spoken import other_language


@dataclass(frozen=True, slots=True)
class Phrases:
    """`said` are (in English, in that language); `code` is the language's, for the browser and for ears."""

    code: str
    language: str
    said: tuple[tuple[str, str], ...]


def phrases_for(unit, chart: Chart) -> Phrases | None:
    """None where the ward's own language is spoken, or nobody has written any: then nothing is shown or asked."""
    language = other_language(chart)
    rows = settings_of(unit).phrases.get(chart.language, ()) if language else ()
    said = tuple((row["english"], row["words"]) for row in rows)
    return Phrases(chart.language, language, said) if said else None
