"""The error pages: generic words and a reference, never a reason that tells a stranger what exists."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.template import TemplateDoesNotExist, loader

PLAIN = (
    '<!doctype html><html lang="en-GB"><title>{status}</title><p>This page cannot be shown. '
    "Go back and try again. If it stays so, tell your unit lead this reference: {reference}.</p></html>"
)


def error_page(request: HttpRequest, status: int) -> HttpResponse:
    """The page `<status>.html` with `reference` and `status`; plain words where even the template fails."""
    reference = getattr(request, "reference", "-")
    context = {"status": status, "reference": reference}
    try:
        # Without the request: a failing session or database must not break the page that says so.
        page = loader.get_template(f"{status}.html").render(context)
    except TemplateDoesNotExist:
        page = PLAIN.format(**context)
    return HttpResponse(page, status=status)


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    return error_page(request, 400)


def not_allowed(request: HttpRequest, exception: Exception) -> HttpResponse:
    return error_page(request, 403)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    return error_page(request, 404)


def failed(request: HttpRequest) -> HttpResponse:
    return error_page(request, 500)


def form_expired(request: HttpRequest, reason: str = "", **kwargs: Any) -> HttpResponse:
    """A form whose hidden token is stale or missing."""
    return error_page(request, 403)
