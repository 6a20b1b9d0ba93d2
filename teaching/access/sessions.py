"""Middleware about who is at the device: how long a session lasts, a first password first, no copies kept."""

import time
from collections.abc import Callable

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import logout
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse

LEFT_OPEN = ("change-password", "sign-out", "light", "healthy", "ready")
TOUCH_SECONDS = 60  # a page writes "seen" at most this often
IDLE = "Nothing was done here for a while, so you were signed out. What you began is kept: sign in and go on."
ABSOLUTE = "You were signed in for a whole shift, so you were signed out. Sign in again to go on."

Answer = Callable[[HttpRequest], HttpResponse]


def end_in_time(get_response: Answer) -> Answer:
    """Ends a session that was idle, or simply open, too long; the server's clock alone decides."""

    def answer(request: HttpRequest) -> HttpResponse:
        if request.user.is_authenticated:
            now = int(time.time())
            ended = _over(request.session, now)
            if ended:
                logout(request)
                messages.info(request, ended)
            elif now - request.session.get("seen", 0) > TOUCH_SECONDS:
                request.session.setdefault("began", now)
                request.session["seen"] = now
        return get_response(request)

    return answer


def _over(session: dict, now: int) -> str:
    if now - session.get("began", now) > settings.SESSION_ABSOLUTE_SECONDS:
        return ABSOLUTE
    return IDLE if now - session.get("seen", now) > settings.SESSION_IDLE_SECONDS else ""


def first_password_first(get_response: Answer) -> Answer:
    """Whoever was given a first password chooses their own before anything else."""

    def answer(request: HttpRequest) -> HttpResponse:
        given = request.user.is_authenticated and request.user.must_change_password
        if given and request.path not in {reverse(name) for name in LEFT_OPEN}:
            return redirect("change-password")
        return get_response(request)

    return answer


def keep_no_copy(get_response: Answer) -> Answer:
    """Any page may hold something clinical: no browser or proxy keeps one. Static files lie further out."""

    def answer(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        if not response.has_header("Cache-Control"):
            response["Cache-Control"] = "no-store"
        return response

    return answer
