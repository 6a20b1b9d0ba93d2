"""The form of a nurse's visit after leaving. A time before the planned leaving is asked about, not dropped."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.record.arrangements import BEFORE_LEAVING
from teaching.rules.spoken import stoma_name
from teaching.rules.vocabulary import ARRANGEMENT_STATES

STATE = "Tap how far this is."
WHAT_FOR = "Tap what the nurse comes for."
FOR = {"change": "To change the pouch, or help with it", "look": "To look only"}


class VisitForm(forms.Form):
    state = forms.ChoiceField(
        label="How far is it", choices=[*ARRANGEMENT_STATES.items()], widget=forms.RadioSelect,
        error_messages={"required": STATE, "invalid_choice": STATE},
    )  # fmt: skip
    what_for = forms.ChoiceField(
        label="What for", choices=list(FOR.items()), widget=forms.RadioSelect,
        error_messages={"required": WHAT_FOR, "invalid_choice": WHAT_FOR},
    )  # fmt: skip
    at = WardTimeField(label="When the nurse comes", error_messages={"required": "Say when the nurse comes."})
    accepted_by = forms.CharField(
        label="Accepted by", max_length=80, required=False, help_text="The name of whoever said yes to this visit.",
        error_messages={"max_length": "Shorten this to 80 characters."},
    )  # fmt: skip
    service = forms.CharField(
        label="Which service", max_length=80, required=False,
        error_messages={"max_length": "Shorten this to 80 characters."},
    )  # fmt: skip

    def __init__(self, *args, stay, chart, known=None, **kwargs):
        super().__init__(*args, initial=_initial(known), **kwargs)
        self.stay = stay
        self.fields["at"].on(stay.zone)
        if len(chart.stomas) > 1:
            stomas = [("", "Every stoma"), *((one.key, stoma_name(one)) for one in chart.stomas)]
            self.fields["stoma"] = forms.ChoiceField(
                label="Which stoma", choices=stomas, required=False, widget=forms.RadioSelect
            )
        self.fields["meant_so"] = forms.BooleanField(
            label="Yes, this visit is meant to be before the planned leaving", required=False,
            widget=forms.CheckboxInput if self.data.get("meant_so") == "on" else forms.HiddenInput,
        )  # fmt: skip

    def add_error(self, field, error) -> None:
        """Where the time lies before leaving, the tick that it is meant so appears."""
        super().add_error(field, error)
        if error == BEFORE_LEAVING:
            self.fields["meant_so"].widget = forms.CheckboxInput()

    def said(self) -> dict:
        """What arrange_visit takes."""
        cleaned = self.cleaned_data
        named = cleaned.get("stoma")
        return {
            "at": cleaned["at"],
            "state": cleaned["state"],
            "for_change": cleaned["what_for"] == "change",
            "accepted_by": cleaned["accepted_by"],
            "service": cleaned["service"],
            "stoma": self.stay.stomas.get(uid=named) if named else None,
            "meant_so": cleaned["meant_so"],
        }


def _initial(known) -> dict:
    if known is None:
        return {}
    return {
        "state": known.state, "what_for": "change" if known.for_change else "look", "at": known.at,
        "accepted_by": known.accepted_by, "service": known.service, "stoma": known.stoma,
    }  # fmt: skip
