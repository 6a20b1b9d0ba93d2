"""A short reference on every request, the same on error page, log and trail; and who called."""

import secrets
from collections.abc import Callable
from contextvars import ContextVar

from django.conf import settings
from django.http import HttpRequest, HttpResponse

current_reference: ContextVar[str] = ContextVar("current_reference", default="-")


Answer = Callable[[HttpRequest], HttpResponse]


def give_reference(get_response: Answer) -> Answer:
    """Middleware: `request.reference`, eight letters and digits made here; nothing a caller sends is used."""

    def answer(request: HttpRequest) -> HttpResponse:
        request.reference = secrets.token_hex(4)  # type: ignore[attr-defined]
        mark = current_reference.set(request.reference)  # type: ignore[attr-defined]
        try:
            return get_response(request)
        finally:
            current_reference.reset(mark)

    return answer


def client_address(request: HttpRequest) -> str:
    """The caller's address: behind n proxies of ours, the n-th from the right of X-Forwarded-For.

    Anything further left was written by the caller and is not believed.
    """
    named = request.META.get("HTTP_X_FORWARDED_FOR", "").split(",")
    forwarded = [part.strip() for part in named if part.strip()]
    if settings.PROXIES and len(forwarded) >= settings.PROXIES:
        return forwarded[-settings.PROXIES]
    return request.META.get("REMOTE_ADDR", "")
