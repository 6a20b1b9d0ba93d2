"""The form of one arrangement: its state, when it happens, and what this kind asks to be told."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.rules.arrangements import DAY, NUMBER, YES, Kind
from teaching.rules.vocabulary import ARRANGEMENT_STATES

STATE = "Tap how far this is."
WHOLE = "Write a whole number, 0 or more."
LONGEST = 300
MOST_DAYS = 365


class ArrangementForm(forms.Form):
    """`known` is the newest word on it, shown to be changed; nothing is chosen where nobody has said anything."""

    def __init__(self, *args, kind: Kind, zone: str, known=None, **kwargs):
        super().__init__(*args, initial=_initial(kind, known), **kwargs)
        self.kind = kind
        self.fields["state"] = forms.ChoiceField(
            label="How far is it", choices=list(ARRANGEMENT_STATES.items()), widget=forms.RadioSelect,
            error_messages={"required": STATE, "invalid_choice": STATE},
        )  # fmt: skip
        if kind.moment:
            self.fields["due_at"] = WardTimeField(zone=zone, required=False, label=kind.moment)
        for detail in kind.details:
            self.fields[detail.name] = _field(detail)
        self.fields["value"] = forms.CharField(
            label="Anything else", max_length=200, required=False,
            error_messages={"max_length": "Shorten this to 200 characters."},
        )  # fmt: skip

    def said(self) -> dict:
        """What make_arrangement takes; what was left open is left out."""
        cleaned = self.cleaned_data
        told = {detail.name: _told(detail, cleaned[detail.name]) for detail in self.kind.details}
        return {
            "code": self.kind.code,
            "state": cleaned["state"],
            "value": cleaned["value"],
            "due_at": cleaned.get("due_at"),
            "details": {name: said for name, said in told.items() if said not in (None, "")},
        }


def _field(detail) -> forms.Field:
    if detail.kind == YES:
        return forms.BooleanField(label=detail.words, required=False)
    if detail.kind == NUMBER:
        return forms.IntegerField(
            label=detail.words, min_value=0, max_value=MOST_DAYS, required=False,
            error_messages={"invalid": WHOLE, "min_value": WHOLE, "max_value": f"{MOST_DAYS} is the most here."},
        )  # fmt: skip
    if detail.kind == DAY:
        return forms.DateField(
            label=detail.words, required=False, widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            error_messages={"invalid": "Write the day, such as 2026-03-08."},
        )  # fmt: skip
    return forms.CharField(
        label=detail.words, max_length=LONGEST, required=False,
        error_messages={"max_length": f"Shorten this to {LONGEST} characters."},
    )  # fmt: skip


def _told(detail, said):
    if detail.kind == DAY and said is not None:
        return said.isoformat()
    return said.strip() if isinstance(said, str) else said


def _initial(kind: Kind, known) -> dict:
    if known is None:
        return {}
    return dict(known.details) | {"state": known.state, "value": known.value, "due_at": known.due_at}
