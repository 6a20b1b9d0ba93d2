"""How a form comes in: once, however often it is sent, and refused with sentences beside its fields.

    @guard("open_stay")
    def open_stay(request, unit):
        form = StayForm(request.POST or None, unit=unit)
        return answer_form(request, form, "teaching/setup/open_stay.html", store)

`store(form)` calls a record verb and returns the address to go to next. The page carries `form_key` in a
hidden input (`teaching/access/form_key.html`). A refused form comes back as HTTP 422 with the same key,
unburnt; one without a key is 400; a key used for other content is 422; losing a race is 409.
"""

import uuid
from collections.abc import Callable, Mapping
from typing import Any

from django import forms
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render

from teaching.record.once import KeyReused, MissingKey, once
from teaching.record.refusals import Refused
from teaching.record.writing import Superseded

KEY = "form_key"
SENT_BEFORE = (
    "This form was stored once already, with other content. Look at what stands there first. "
    "Send it again only if this is something new."
)


class SeeOther(HttpResponseRedirect):
    """After a form: fetch the next page with GET, whatever was sent."""

    status_code = 303


def form_key(request: HttpRequest) -> str:
    """The key for the form on this page: the one it came in with (a refusal burns nothing), or a new one."""
    try:
        return str(uuid.UUID(request.POST.get(KEY, "")))
    except ValueError:
        return str(uuid.uuid4())


def answer_once(request: HttpRequest, act: Callable[[], str]) -> HttpResponse:
    """Act once for this form's key and go where `act` says. For forms that are not Django forms.

    Raises BadRequest (400) without a key; KeyReused and Refused pass through for the view to show.
    """
    try:
        key = request.POST.get(KEY)
        return SeeOther(once(actor=request.actor, key=key, route=request.path, body=request.POST, act=act))
    except MissingKey as missing:
        raise BadRequest(str(missing)) from None


def answer_form(
    request: HttpRequest,
    form: forms.Form,
    template: str,
    store: Callable[[Any], str],
    context: Mapping[str, Any] | None = None,
) -> HttpResponse:
    """On GET the form's page. On POST stored once and on to the next page, or back with its faults."""
    status, key = 200, form_key(request)
    if request.method == "POST":
        if KEY not in request.POST:
            raise BadRequest("The form came without its key.")
        status = 422
        if form.is_valid():
            try:
                return answer_once(request, lambda: store(form))
            except Refused as refused:
                status = 409 if isinstance(refused, Superseded) else 422
                show_faults(form, refused)
            except KeyReused:
                key = str(uuid.uuid4())
                form.add_error(None, SENT_BEFORE)
    return render(request, template, {**(context or {}), "form": form, KEY: key}, status=status)


def show_faults(form: forms.Form, refused: Refused) -> None:
    """Each sentence beside its field; those of no field of this form above them all.

    Where an entry's field is asked for under another name, the form says so in `stands_for`.
    """
    for fault in refused.faults:
        field = getattr(form, "stands_for", {}).get(fault.field, fault.field)
        form.add_error(field if field in form.fields else None, fault.sentence)
