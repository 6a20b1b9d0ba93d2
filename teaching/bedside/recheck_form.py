"""The recheck: somebody who holds all of a procedure still manages it. Only what is held can be renewed."""

from dataclasses import dataclass

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.bedside.band import stoma_name
from teaching.bedside.which import learner_name
from teaching.record.entries import RecheckEntry
from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.scene import has_agreed
from teaching.rules.vocabulary import PROCEDURES

NOTHING = "Nothing is held yet that a recheck could renew. Record what you saw as a session."
RENEWED = ("emptying", "urine", "swap", "night")


@dataclass(frozen=True, slots=True)
class Held:
    """One learner, one stoma, one procedure of which something is held."""

    procedure: str
    stoma: str
    learner: str
    words: str

    @property
    def value(self) -> str:
        return f"{self.procedure}:{self.stoma}:{self.learner}"


def held_here(chart: Chart, found: Assessment, person: str) -> list[Held]:
    """What may be rechecked now, the person first. A row that is not held is not renewed by it."""
    kept = []
    for one in found.conclusions:
        learner = chart.learner(one.learner)
        if one.procedure in RENEWED and one.held and has_agreed(chart, learner, found.at):
            kept.append((learner.kind != "person", named(chart, one.procedure, one.stoma, one.learner, person)))
    return [held for _, held in sorted(kept, key=lambda pair: pair[0])]


def named(chart: Chart, procedure: str, stoma: str, learner: str, person: str) -> Held:
    """Who, then the procedure, and of which stoma where there are two."""
    where = f", {stoma_name(chart.stoma(stoma))}" if len(chart.stomas) > 1 else ""
    said = f"{learner_name(chart.learner(learner), person)}: {PROCEDURES[procedure].lower()}{where}"
    return Held(procedure, stoma, learner, said)


class RecheckForm(forms.Form):
    stands_for = {"procedure": "which", "stoma": "which", "learner": "which"}
    which = forms.ChoiceField(
        label="Who still manages what", widget=forms.RadioSelect,
        error_messages={"required": "Tap who and what you watched.", "invalid_choice": "Tap one of these."},
    )  # fmt: skip
    at = WardTimeField(required=False, label="It was earlier", help_text="Left empty, it was just now.")

    def __init__(self, *args, stay, held: list[Held], zone: str, now, **kwargs):
        super().__init__(*args, **kwargs)
        self.stay, self.now = stay, now
        self.held = {one.value: one for one in held}
        self.fields["which"].choices = [(one.value, one.words) for one in held]
        self.fields["at"].on(zone)
        if not held:
            self.fields.clear()

    def clean(self):
        if not self.held:
            raise forms.ValidationError(NOTHING)
        return super().clean()

    def entry(self) -> RecheckEntry:
        chosen = self.held[self.cleaned_data["which"]]
        return RecheckEntry(
            stay=self.stay,
            stoma=self.stay.stomas.get(uid=chosen.stoma),
            learner=self.stay.learners.get(uid=chosen.learner),
            procedure=chosen.procedure,
            at=self.cleaned_data["at"] or self.now,
        )
