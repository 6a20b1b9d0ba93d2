"""Forms of signing off, withdrawing, and accepting a certificate from elsewhere."""

from django import forms

from teaching.access.ward_time import DayField
from teaching.rules.ward import Ward


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
    valid_from = DayField(label="Valid from", error_messages={"required": "Write the day it begins."})
    valid_until = DayField(label="Valid until", error_messages={"required": "Write the last day it holds."})

    def __init__(self, *args, longest: int, **kwargs):
        """`longest` in months, as the hospital's policy has it."""
        super().__init__(*args, **kwargs)
        self.fields["valid_until"].help_text = f"The last day it holds; {longest} months at most."

    def said(self, ward: Ward) -> dict:
        """What the verb is told: the first moment of the first day and the last of the last, on the ward's clock."""
        data = self.cleaned_data
        return {
            "certificate": data["certificate"],
            "valid_from": ward.begins(data["valid_from"]),
            "valid_until": ward.ends(data["valid_until"]),
        }
