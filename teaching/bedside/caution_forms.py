"""A caution's next step: told to somebody, settled, or tapped by mistake."""

from django import forms

from teaching.access.ward_time import WardTimeField

LOOKED_AGAIN = "Looked again: normal now."


class ToldForm(forms.Form):
    whom = forms.CharField(
        label="Whom you told",
        max_length=120,
        help_text="Name and what they are, such as Dr N, surgical on call.",
        error_messages={"required": "Write whom you told.", "max_length": "Shorten this to 120 characters."},
    )
    answer = forms.CharField(
        label="What they answered",
        max_length=300,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"max_length": "Shorten this to 300 characters."},
    )
    at = WardTimeField(required=False, label="Told earlier", help_text="Left empty, you told them just now.")
    look_again_at = WardTimeField(required=False, label="Look again by")

    def __init__(self, *args, ward, **kwargs):
        super().__init__(*args, **kwargs)
        for name in ("at", "look_again_at"):
            self.fields[name].on(ward.zone)


class SettledForm(forms.Form):
    how = forms.ChoiceField(
        label="What settles it",
        widget=forms.RadioSelect,
        choices=[
            ("normal", "I looked again, and it is normal now"),
            ("clinician", "A clinician has seen it and says it is settled"),
        ],
        error_messages={"required": "Tap what settles it."},
    )
    whom = forms.CharField(
        label="Which clinician, if one settles it",
        max_length=120,
        required=False,
        help_text="Name and what they are.",
        error_messages={"max_length": "Shorten this to 120 characters."},
    )
    answer = forms.CharField(
        label="In words",
        max_length=300,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"max_length": "Shorten this to 300 characters."},
    )
    at = WardTimeField(required=False, label="Settled earlier", help_text="Left empty, it is settled now.")

    def __init__(self, *args, ward, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["at"].on(ward.zone)

    def clean(self):
        cleaned = super().clean()
        if cleaned.get("how") == "clinician" and not cleaned.get("whom"):
            self.add_error("whom", "Name the clinician whose word settles it.")
        if cleaned.get("how") == "normal" and not cleaned.get("answer"):
            cleaned["answer"] = LOOKED_AGAIN
        return cleaned


class MistakeForm(forms.Form):
    answer = forms.CharField(
        label="What was tapped by mistake",
        max_length=300,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={
            "required": "Write in a few words why it was a mistake.",
            "max_length": "Shorten this to 300 characters.",
        },
    )

    def __init__(self, *args, ward, **kwargs):
        super().__init__(*args, **kwargs)
