"""Fresh proof of who is at the device, before a signature that weighs more: the password, unless given just now.

    form = ask_proof(request, SignForm(request.POST or None))    # adds `password` only where it is needed
    ... verb(actor=request.actor, ...)                           # request.actor.proof now says how it was proved

The form's page includes "teaching/access/fresh_proof.html". A verb that must not go without proof calls
`record.proof.proved(actor)`, which refuses or gives the words to store.
"""

import time
from dataclasses import replace

from django import forms
from django.contrib.auth import authenticate
from django.core.exceptions import ValidationError
from django.http import HttpRequest
from django.utils.safestring import SafeString, mark_safe

from teaching.record.trail import leave_read_line

FRESH_SECONDS = 15 * 60  # common practice, no source: long enough for one round at a bed, shorter than an idle session
AGAIN = "password given again"
JUST_NOW = "password given within 15 minutes"
WRONG = "This is not your password. Write it again; nothing was stored."


def remember_proof(request: HttpRequest) -> None:
    """The password was right just now: at signing in, or asked again."""
    request.session["proved_at"] = int(time.time())


def is_fresh(request: HttpRequest) -> bool:
    age = time.time() - request.session.get("proved_at", 0)
    return 0 <= age < FRESH_SECONDS


def ask_proof(request: HttpRequest, form: forms.Form) -> forms.Form:
    """The form as it was given, with a password field where the last proof is too old. Call it before is_valid()."""
    if is_fresh(request):
        request.actor = replace(request.actor, proof=JUST_NOW)
    else:
        form.fields["password"] = PasswordAgain(request)
    return form


class PasswordAgain(forms.CharField):
    """The signed-in person's own password. A wrong one counts towards the lock, as at signing in."""

    def __init__(self, request: HttpRequest) -> None:
        super().__init__(
            label="Your password again",
            strip=False,
            max_length=4096,
            help_text="Asked again because this signature weighs more, and the last time was over 15 minutes ago.",
            widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
            error_messages={"required": "Write your password, so that it is surely you who signs."},
        )
        self.request = request
        self.given = False  # once right it is not asked for again, even if the form comes back for something else

    def validate(self, value: str) -> None:
        super().validate(value)
        request = self.request
        user = authenticate(request, username=request.user.get_username(), password=value)
        right = user is not None and user.pk == request.user.pk
        leave_read_line(actor=request.actor, verb="prove_again", outcome="done" if right else "refused")
        if not right:
            raise ValidationError(WRONG)
        remember_proof(request)
        request.actor = replace(request.actor, proof=AGAIN)
        self.given, self.required, self.widget = True, False, AlreadyGiven()


class AlreadyGiven(forms.HiddenInput):
    """Nothing on the page: a password never comes back in HTML."""

    def render(self, name: str, value: object, attrs: object = None, renderer: object = None) -> SafeString:
        return mark_safe("")
