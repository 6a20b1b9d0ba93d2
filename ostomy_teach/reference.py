"""A short reference on every request, the same on the error page, in the log and in the trail; and who called."""

import secrets
from collections.abc import Callable
from contextvars import ContextVar

from django.conf import settings
from django.http import HttpRequest, HttpResponse

current_reference: ContextVar[str] = ContextVar("current_reference", default="-")


def give_reference(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Middleware: `request.reference`, eight letters and digits made here; nothing a caller sends is taken over."""

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
    forwarded = [part.strip() for part in request.META.get("HTTP_X_FORWARDED_FOR", "").split(",") if part.strip()]
    if settings.PROXIES and len(forwarded) >= settings.PROXIES:
        return forwarded[-settings.PROXIES]
    return request.META.get("REMOTE_ADDR", "")
