"""Signing in and out, choosing a password, and the first page of each role."""

from django.contrib import messages
from django.contrib.auth import authenticate, login, logout, update_session_auth_hash
from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import NoReverseMatch, reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from teaching.access.fresh_proof import remember_proof
from teaching.access.guards import actor_of
from teaching.access.password_forms import ChoosePasswordForm, SignInForm
from teaching.access.scope import held_by, may, units_for
from teaching.record import staff
from teaching.record.refusals import Refused
from teaching.record.trail import leave_read_line
from teaching.rules.vocabulary import ROLES

# The first page: that of the first permission held, in this order.
FIRST_PAGES = {
    "record_emptying": "this-shift", "see_readiness": "going-home", "manage_unit": "setup",
    "see_skills": "nurses-by-skill", "see_trail": "trail",
}  # fmt: skip


@sensitive_post_parameters("password")
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """The name and the password; one answer for every wrong pair, so that nobody learns which names exist."""
    if request.method != "POST":
        return redirect("home") if request.user.is_authenticated else _sign_in_page(request, SignInForm())
    form = SignInForm(request.POST)
    user = authenticate(request, **form.cleaned_data) if form.is_valid() else None
    if user is None:
        leave_read_line(actor=actor_of(request), verb="sign_in", outcome="refused")
        if form.is_valid():
            form.add_error(None, "This name and password do not go together. Check both and try again.")
        return _sign_in_page(request, form, status=422)
    login(request, user)  # a new session id, whatever came before
    remember_proof(request)
    leave_read_line(actor=actor_of(request), verb="sign_in", outcome="done")
    return redirect(_asked_for(request) or "home")


def _sign_in_page(request: HttpRequest, form: SignInForm, status: int = 200) -> HttpResponse:
    context = {"form": form, "next": _asked_for(request)}
    return render(request, "teaching/access/sign_in.html", context, status=status)


def _asked_for(request: HttpRequest) -> str:
    """Where the person was going, if it is a page of this house."""
    wanted = request.POST.get("next") or request.GET.get("next", "")
    here = url_has_allowed_host_and_scheme(wanted, {request.get_host()}, require_https=request.is_secure())
    return wanted if here else ""


@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """Ends every session of this person, on every device, and clears what the device kept."""
    if request.user.is_authenticated:
        staff.end_sessions(actor=actor_of(request), user=request.user)
        logout(request)
    messages.info(request, "You are signed out, here and on every other device.")
    response = redirect("sign-in")
    response["Clear-Site-Data"] = '"cache", "storage"'
    return response


@sensitive_post_parameters()
@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def change_password(request: HttpRequest) -> HttpResponse:
    """One's own password; the one given at first must be changed before anything else."""
    form = ChoosePasswordForm(request.user, request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            password = form.cleaned_data["password"]
            staff.change_password(actor=actor_of(request), user=request.user, password=password)
        except Refused as refused:
            for fault in refused.faults:
                form.add_error("password", fault.sentence)
        else:
            update_session_auth_hash(request, request.user)
            messages.success(request, "Your new password is stored.")
            return redirect("home")
    status = 422 if request.method == "POST" else 200
    return render(request, "teaching/access/change_password.html", {"form": form}, status=status)


@login_required
@require_safe
def still_here(request: HttpRequest) -> HttpResponse:
    """A page open at a device says that somebody is working on it; the session's own middleware notes it."""
    return HttpResponse(status=204)


@login_required
@require_safe
def home(request: HttpRequest) -> HttpResponse:
    """Off to the first page of the person's role; a calm word where there is none yet."""
    for permission, name in FIRST_PAGES.items():
        if may(request.user, permission):
            address = _address(name, units_for(request.user, permission).first())
            if address:
                return redirect(address)
    roles = [words for role, words in ROLES.items() if role in held_by(request.user).anywhere]
    return render(request, "teaching/access/nothing_yet.html", {"roles": roles})


def _address(name: str, unit) -> str:
    for named in ({"unit": unit.uid} if unit else {}, {}):
        try:
            return reverse(name, kwargs=named)
        except NoReverseMatch:
            continue
    return ""
