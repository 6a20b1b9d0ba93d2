"""Who teaches a shift, ticked at the huddle."""

from collections.abc import Mapping, Sequence
from datetime import date

from django import forms


class TickForm(forms.Form):
    """One box a nurse, named by uid; the label says what they are signed off for in that shift."""

    day = forms.DateField(widget=forms.HiddenInput)
    shift = forms.CharField(widget=forms.HiddenInput, max_length=40)
    teach = forms.MultipleChoiceField(
        label="Who teaches",
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="Tick everyone who can take a teaching session in this shift.",
        error_messages={"invalid_choice": "One of these no longer works here. Open the page anew."},
    )

    def __init__(self, *args, people: Sequence[tuple[str, str]], shift: tuple[date, str], **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["teach"].choices = people
        self.fields["day"].initial, self.fields["shift"].initial = shift


def can_teach(held: Sequence[str], titles: Mapping[str, str]) -> str:
    """Such as "signed off: teach, bowel stoma; do a change"."""
    return f"signed off: {'; '.join(titles[code] for code in held)}" if held else "not signed off"
