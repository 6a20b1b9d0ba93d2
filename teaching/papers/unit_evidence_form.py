"""The form behind the button that keeps a unit's evidence: it asks nothing."""

from django import forms


class KeepEvidenceForm(forms.Form):
    """Only the key of the form comes in, so that two taps keep one paper."""
