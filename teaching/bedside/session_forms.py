"""Small forms about a session that is signed: a note, entered in error, co-sign, why it is corrected."""

from django import forms

LONGEST = 300
TOO_LONG = f"Shorten this to {LONGEST} characters."


def text(label: str, missing: str, help_text: str = "") -> forms.CharField:
    return forms.CharField(
        label=label, max_length=LONGEST, help_text=help_text, widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={"required": missing, "max_length": TOO_LONG},
    )  # fmt: skip


class NoteForm(forms.Form):
    words = text("The note", "Write the note.", "It changes nothing that counts, and stays beside the entry for good.")


class InErrorForm(forms.Form):
    reason = text("What is wrong with it", "Write in a few words why this was entered in error.")

    def __init__(self, *args, leaning="", **kwargs):
        """`leaning`: the sentence where a signed paper leans on it; then it must be ticked that it was read."""
        super().__init__(*args, **kwargs)
        if leaning:
            self.fields["aware"] = forms.BooleanField(
                label="I have read this, and will tell whoever signed it", required=False, help_text=leaning
            )


class CosignForm(forms.Form):
    """Nothing to fill in: reading it and signing is the act."""


class WhyForm(forms.Form):
    reason = text("Why it is corrected", "Write in a few words what was wrong.")
