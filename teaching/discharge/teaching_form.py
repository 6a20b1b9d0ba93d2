"""The form of a teaching appointment: when, who learns, who teaches, what for; and afterwards what became of it."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.rules.spoken import stoma_name
from teaching.rules.vocabulary import APPOINTMENT_STATES, PROCEDURES

STATE = "Tap how far this is."
WHO = "Tap who is to learn: the person, a helper, or both."
TAUGHT = {code: words for code, words in PROCEDURES.items() if code != "meeting"}


class TeachingForm(forms.Form):
    at = WardTimeField(label="When", error_messages={"required": "Say when."})
    learners = forms.MultipleChoiceField(
        label="Who learns", widget=forms.CheckboxSelectMultiple,
        error_messages={"required": WHO, "invalid_choice": WHO},
    )  # fmt: skip
    procedure = forms.ChoiceField(
        label="What is taught", choices=list(TAUGHT.items()), widget=forms.RadioSelect,
        error_messages={"required": "Tap what is taught.", "invalid_choice": "Tap what is taught."},
    )  # fmt: skip
    practice = forms.BooleanField(label="On a model, or with water in the pouch", required=False)
    teacher = forms.ChoiceField(label="Who teaches", required=False)
    interpreter = forms.BooleanField(label="An interpreter comes", required=False)
    aim = forms.CharField(
        label="Aim, in a few words", max_length=120, required=False,
        error_messages={"max_length": "Shorten this to 120 characters."},
    )  # fmt: skip
    state = forms.ChoiceField(
        label="How far is it", choices=list(APPOINTMENT_STATES.items()), widget=forms.RadioSelect, initial="booked",
        error_messages={"required": STATE, "invalid_choice": STATE},
    )  # fmt: skip
    why = forms.CharField(
        label="If it was missed: why", max_length=200, required=False,
        error_messages={"max_length": "Shorten this to 200 characters."},
    )  # fmt: skip

    def __init__(self, *args, stay, chart, staff, person, known=None, **kwargs):
        """`staff` are (uid, name) of those who may be named as teachers; `person` the name of the person."""
        super().__init__(*args, initial=_initial(known), **kwargs)
        self.stay = stay
        self.staff = {str(one.uid): one for one, _ in staff}
        self.fields["at"].on(stay.zone)
        self.fields["learners"].choices = [(one.key, one.name or person) for one in chart.learners]
        self.fields["teacher"].choices = [("", "Not known yet"), *((str(one.uid), name) for one, name in staff)]
        if len(chart.stomas) > 1:
            stomas = [("", "Every stoma"), *((one.key, stoma_name(one)) for one in chart.stomas)]
            self.fields["stoma"] = forms.ChoiceField(
                label="Which stoma", choices=stomas, required=False, widget=forms.RadioSelect
            )

    def said(self) -> dict:
        """What book_teaching takes."""
        cleaned = self.cleaned_data
        named = cleaned.get("stoma")
        return {
            **{name: cleaned[name] for name in ("at", "procedure", "practice", "interpreter", "aim", "state", "why")},
            "learners": [one for one in self.stay.learners.all() if str(one.uid) in cleaned["learners"]],
            "teacher": self.staff.get(cleaned["teacher"]),
            "stoma": self.stay.stomas.get(uid=named) if named else None,
        }


def _initial(known) -> dict:
    if known is None:
        return {}
    names = ("at", "procedure", "practice", "teacher", "interpreter", "aim", "state", "why", "stoma")
    return {name: getattr(known, name) for name in names} | {"learners": list(known.learners)}
