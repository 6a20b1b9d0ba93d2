"""Which print the take-home sheet is to have."""

from django import forms

from teaching.papers.take_home import SIZES

PRINTS = {14: "14 point, clear print", 18: "18 point, large print"}
CHOOSE = "Tap the print that this person can read."


class TakeHomeForm(forms.Form):
    size = forms.TypedChoiceField(
        label="Print", choices=[(size, PRINTS[size]) for size in SIZES], coerce=int, widget=forms.RadioSelect,
        error_messages={"required": CHOOSE, "invalid_choice": CHOOSE},
    )  # fmt: skip
