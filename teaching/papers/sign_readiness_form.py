"""What a signature of the readiness record brings along: which words were read, and when they were judged."""

from datetime import datetime, timedelta

from django import forms

SHOWN_FOR = timedelta(minutes=30)  # common practice, no source: an idle session ends then too
AGAIN = "This page is too old to sign. Read what stands below, then sign."


class SignReadinessForm(forms.Form):
    """`shown` is the digest of the words on the page, `judged_at` the moment (UTC) they were judged for."""

    shown = forms.CharField(max_length=64, widget=forms.HiddenInput, error_messages={"required": AGAIN})
    judged_at = forms.CharField(max_length=40, widget=forms.HiddenInput, error_messages={"required": AGAIN})

    def __init__(self, *args, now: datetime, **kwargs):
        super().__init__(*args, **kwargs)
        self.now = now

    def clean_judged_at(self) -> datetime:
        try:
            judged = datetime.fromisoformat(self.cleaned_data["judged_at"])
            recent = timedelta() <= self.now - judged <= SHOWN_FOR
        except (TypeError, ValueError):
            recent = False
        if not recent:
            raise forms.ValidationError(AGAIN)
        return judged
