"""The form of one try at a call, or of a coming back."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.rules.vocabulary import AFTER_HOME, AFTER_HOME_ASKED

KIND = "Tap what became of it."
ASKED = {
    "leak": "Leaks since leaving",
    "skin": "The skin, in their words",
    "output": "What comes out",
    "mood": "How they are managing",
    "changed_by": "The first change at home was done by",
}


class CallForm(forms.Form):
    kind = forms.ChoiceField(
        label="What became of it", choices=list(AFTER_HOME.items()), widget=forms.RadioSelect,
        error_messages={"required": KIND, "invalid_choice": KIND},
    )  # fmt: skip
    at = WardTimeField(required=False, label="When", help_text="Left empty, it was just now.")

    def __init__(self, *args, zone: str, now, **kwargs):
        super().__init__(*args, **kwargs)
        self.now = now
        self.fields["at"].on(zone)
        for question, answers in AFTER_HOME_ASKED.items():
            self.fields[question] = forms.ChoiceField(
                label=ASKED[question], choices=list(answers.items()), required=False, widget=forms.RadioSelect
            )
        self.fields["words"] = forms.CharField(
            label="In words, or why they came back", max_length=500, required=False,
            widget=forms.Textarea(attrs={"rows": 3}), error_messages={"max_length": "Shorten this to 500 characters."},
        )  # fmt: skip

    stands_for = {"told": "kind"}

    def said(self) -> dict:
        """What record_after_home takes."""
        cleaned = self.cleaned_data
        return {
            "kind": cleaned["kind"],
            "at": cleaned["at"] or self.now,
            "told": {question: cleaned[question] for question in AFTER_HOME_ASKED if cleaned[question]},
            "words": cleaned["words"],
        }
