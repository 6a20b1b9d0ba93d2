"""Output as it is asked: the 24-hour total from the fluid chart, and nothing out since when. Never summed here."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.bedside.band import stoma_name

SILENT_SIGNS = ("silent-ileostomy", "no-urine")
WORKED, NOTHING = "worked", "nothing"


class OfStoma(forms.Form):
    """Which stoma is asked only where there are two; `stoma_row` is the row of the one meant."""

    which = forms.ChoiceField(
        label="Which stoma", widget=forms.RadioSelect,
        error_messages={"required": "Tap the stoma.", "invalid_choice": "Tap one of these."},
    )  # fmt: skip

    def __init__(self, *args, stay, stomas, zone, **kwargs):
        super().__init__(*args, **kwargs)
        self.stay, self.stomas = stay, stomas
        self.fields["which"].choices = [(one.key, stoma_name(one)) for one in stomas]
        if len(stomas) == 1:
            del self.fields["which"]
        for field in self.fields.values():
            if isinstance(field, WardTimeField):
                field.on(zone)

    @property
    def stoma_row(self):
        key = self.cleaned_data.get("which") or self.stomas[0].key
        return next(one for one in self.stay.stomas.all() if str(one.uid) == key)


class OutputTotalForm(OfStoma):
    ml = forms.IntegerField(
        label="24-hour total from the fluid chart, mL",
        widget=forms.NumberInput(attrs={"inputmode": "numeric"}),
        error_messages={
            "required": "Write the total from the fluid chart. If there is none, leave this page: it is not known.",
            "invalid": "Write a whole number of mL, such as 1200.",
        },
    )
    until_at = WardTimeField(
        label="The 24 hours up to", help_text="As the chart was added up, such as 07:00 this morning.",
        error_messages={"required": "Say up to when the chart was added up."},
    )  # fmt: skip


class NothingSinceForm(OfStoma):
    has = forms.ChoiceField(
        label="Has anything come out?", widget=forms.RadioSelect,
        choices=[(WORKED, "Yes, it has worked"), (NOTHING, "Nothing, since ...")],
        error_messages={"required": "Tap what they say, or what the pouch shows."},
    )  # fmt: skip
    since_at = WardTimeField(required=False, label="Nothing since")
    signs = forms.MultipleChoiceField(
        label="Is there any of these? Call now", required=False, widget=forms.CheckboxSelectMultiple
    )

    def __init__(self, *args, signs, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["signs"].choices = signs
        if not signs:
            del self.fields["signs"]

    def clean(self):
        cleaned = super().clean()
        if cleaned.get("has") == NOTHING and not cleaned.get("since_at") and "since_at" not in self.errors:
            self.add_error("since_at", "Say since when nothing has come out.")
        if cleaned.get("has") == WORKED and (cleaned.get("since_at") or cleaned.get("signs")):
            self.add_error("has", "This says both. Tap nothing, or leave the time and the signs out.")
        return cleaned
