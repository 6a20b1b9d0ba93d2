"""The fields of a recorder: first who and which, then each row by its code, last when, where and how long.

A name is stable and made of a word and a code: ratings.<code>, who.<code>, reason.<code>, aids.<code>,
reported.<code>, practised.<code>, note.<code>; alone.<part> and part_who.<part> where a procedure has parts.
"""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.rules import vocabulary as words
from teaching.rules.checklist import Row

MINUTES = (5, 10, 15, 20, 30, 45, 60, 90)
Fields = dict[str, forms.Field]


def answers_for(row: Row) -> list[tuple[str, str]]:
    """A topic's answers; levels or judgements, then why it was not rated. Never a preset, never 09."""
    if row.item.topic:
        return [(code, words.ANSWERS[code].words) for code in words.TOPIC_CODES]
    own = words.DECISION_CODES if row.item.decision else words.LEVEL_CODES
    return [(code, words.ANSWERS[code].words) for code in (*own, *words.NOT_RATED_CODES)]


def one_of(label: str, known, **kwargs) -> forms.ChoiceField:
    """A choice that may be left open."""
    return forms.ChoiceField(label=label, choices=known, required=False, widget=forms.RadioSelect, **kwargs)


def tick(label: str) -> forms.BooleanField:
    return forms.BooleanField(label=label, required=False)


def which_field(asks: str, refusal: str, known) -> Fields:
    return {
        "which": forms.ChoiceField(
            label=asks,
            choices=known,
            widget=forms.RadioSelect,
            error_messages={"required": refusal, "invalid_choice": refusal},
        )
    }


def row_fields(row: Row, learners: list[tuple[str, str]]) -> Fields:
    """What may be said of one row; of a topic its answer alone. `who` only where more than one may have done it."""
    code = row.code
    fields: Fields = {f"ratings.{code}": one_of(row.item.title, answers_for(row))}
    if row.item.topic:
        return fields
    if len(learners) > 1:
        fields[f"who.{code}"] = one_of("Who did this step, if somebody else", learners)
    fields[f"reason.{code}"] = one_of("If the level was lower: why", list(words.LOWER_REASONS.items()))
    fields[f"aids.{code}"] = forms.MultipleChoiceField(
        label="Aids used (they never lower a level)",
        choices=list(words.AIDS.items()),
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )
    fields[f"reported.{code}"] = tick("I was told this and did not see it (shown, never counted)")
    fields[f"practised.{code}"] = tick("This step was practice: on a model, or water in the pouch")
    fields[f"note.{code}"] = forms.CharField(label="A few words", required=False, max_length=300)
    return fields


def last_fields(zone: str, minutes: object = None) -> Fields:
    """When, where, how long. `minutes`: a length that is written down already, to be kept among the choices."""
    lengths = sorted({*MINUTES, *([int(minutes)] if str(minutes or "").isdigit() else [])})
    return {
        "began_at": WardTimeField(
            zone=zone, required=False, label="It happened earlier", help_text="Left empty, it happened just now."
        ),
        "minutes": one_of("About how long", [(str(length), f"{length} minutes") for length in lengths]),
        "place": one_of("Where", list(words.PLACES.items())),
        "language": forms.CharField(
            label="Language spoken, if not the ward's own", required=False, max_length=20
        ),
        "interpreter": one_of("Who interpreted", list(words.INTERPRETERS.items())),
        "broken_off": tick("Broken off before the end"),
    }  # fmt: skip
