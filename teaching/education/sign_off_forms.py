"""Forms of signing off, withdrawing, and accepting a certificate from elsewhere."""

from datetime import datetime, time
from zoneinfo import ZoneInfo

from django import forms


class SignOffForm(forms.Form):
    """Nothing to fill in beyond fresh proof: sending it is the signature."""


class WithdrawForm(forms.Form):
    reason = forms.CharField(
        label="Why",
        max_length=200,
        help_text="The nurse reads it. No person in care is named here.",
        error_messages={"required": "Write why, so that the nurse knows what would bring it back."},
    )


class CertificateForm(forms.Form):
    certificate = forms.CharField(
        label="Who issued it, and when",
        max_length=200,
        help_text="As it stands on the certificate you have seen.",
        error_messages={"required": "Write who issued the certificate, and when."},
    )
    valid_from = forms.DateField(
        label="Valid from",
        widget=forms.DateInput(attrs={"type": "date"}),
        error_messages={"required": "Write the day it begins.", "invalid": "Write a day, such as 2026-03-08."},
    )
    valid_until = forms.DateField(
        label="Valid until",
        help_text="The last day it holds; 36 months at most.",
        widget=forms.DateInput(attrs={"type": "date"}),
        error_messages={"required": "Write the last day it holds.", "invalid": "Write a day, such as 2026-03-08."},
    )

    def said(self, zone: str) -> dict:
        """What the verb is told: the first moment of the first day and the last of the last, on the ward's clock."""
        data, here = self.cleaned_data, ZoneInfo(zone)
        return {
            "certificate": data["certificate"],
            "valid_from": datetime.combine(data["valid_from"], time.min, tzinfo=here),
            "valid_until": datetime.combine(data["valid_until"], time.max, tzinfo=here),
        }
