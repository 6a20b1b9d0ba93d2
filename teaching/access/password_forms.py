"""The forms of signing in and of choosing a password, whose rules are the verb's: length, not composition."""

from django import forms

from teaching.models import User


def _password(label: str, autocomplete: str, help_text: str = "", missing: str = "") -> forms.CharField:
    return forms.CharField(
        label=label,
        strip=False,
        help_text=help_text,
        max_length=4096,
        widget=forms.PasswordInput(attrs={"autocomplete": autocomplete}),
        error_messages={"required": missing, "max_length": "This is too long to be a password; shorten it."},
    )


class SignInForm(forms.Form):
    username = forms.CharField(
        label="Your sign-in name",
        max_length=60,
        widget=forms.TextInput(
            attrs={
                "autocomplete": "username",
                "autocapitalize": "none",
                "spellcheck": "false",
                "autofocus": True,
            }
        ),
        error_messages={
            "required": "Write your sign-in name.",
            "max_length": "A sign-in name has at most 60 characters; shorten it.",
        },
    )
    password = _password("Password", "current-password", missing="Write your password.")

    def clean_username(self) -> str:
        """A phone may write a capital. The name is taken as it was set up, so throttling counts one name."""
        written = User.normalize_username(self.cleaned_data["username"])
        known = User.objects.filter(username__iexact=written).values_list("username", flat=True).first()
        return known or written.lower()


class ChoosePasswordForm(forms.Form):
    """Asks for the present password, except for one given at first and used a moment ago."""

    present = _password("Your password now", "current-password", missing="Write the password you have now.")
    password = _password(
        "New password",
        "new-password",
        "At least 12 characters. Several words in a row are easy to remember. No rule about digits or signs.",
        "Write a new password.",
    )
    again = _password("The new password again", "new-password", missing="Write the new password once more.")

    def __init__(self, user: User, *args, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.user = user
        if user.must_change_password:
            del self.fields["present"]

    def clean_present(self) -> str:
        if not self.user.check_password(self.cleaned_data["present"]):
            raise forms.ValidationError("This is not your password now. Write it again.")
        return self.cleaned_data["present"]

    def clean_again(self) -> str:
        if self.cleaned_data["again"] != self.cleaned_data.get("password", self.cleaned_data["again"]):
            raise forms.ValidationError("The two are not the same. Write the new password again.")
        return self.cleaned_data["again"]
