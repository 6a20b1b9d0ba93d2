"""The guard on every view: who is asking, does it exist for them, may they; and the trail line either way.

    @guard("record_emptying")
    def record_emptying(request, stay, stoma): ...

The address holds uids (`stays/<uuid:stay>/stomas/<uuid:stoma>/`); the view is handed the rows, found in the
scope of the person asking. It finds `request.actor` for the verbs, and `request.unit` (None where the address
names no object: the permission must be held somewhere, and lists begin from `units_for` or `stays_for`).
"""

from collections.abc import Callable, Mapping
from functools import wraps
from typing import Any

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseNotAllowed
from django.shortcuts import resolve_url

from ostomy_teach.reference import client_address
from teaching.access.permissions import PERMISSIONS
from teaching.access.scope import NAMED, NotThere, find, held_by
from teaching.record.actor import Actor
from teaching.record.trail import leave_read_line

READS = ("GET", "HEAD")
ANSWERED = (*READS, "POST")
View = Callable[..., HttpResponse]


def guard(permission: str) -> Callable[[View], View]:
    """Not signed in: the sign-in page. Outside scope: 404. A lesser role there: 403. Else the view."""
    PERMISSIONS[permission]  # a misspelt permission stops the start

    def guarding(view: View) -> View:
        @wraps(view)
        def guarded(request: HttpRequest, **names: Any) -> HttpResponse:
            if not request.user.is_authenticated:
                return redirect_to_login(request.get_full_path(), resolve_url("sign-in"))
            found = _let_in(request, permission, names)
            if request.method not in ANSWERED:
                return HttpResponseNotAllowed(ANSWERED)
            response = view(request, **found)
            if request.method in READS and response.status_code == 200:
                _line(request, permission, "read", names)
            return response

        guarded.permission = permission  # type: ignore[attr-defined]
        return guarded

    return guarding


def _let_in(request: HttpRequest, permission: str, names: Mapping[str, Any]) -> dict[str, Any]:
    """The view's arguments, rows in place of uids; else Http404 or PermissionDenied and a line."""
    held = held_by(request.user)
    request.unit = None
    request.actor = actor_of(request)
    try:
        rows, request.unit = find(request.user, names)
    except NotThere:
        _line(request, permission, "not there", names)
        raise Http404 from None
    roles = held.anywhere if request.unit is None else held.on(request.unit)
    request.actor = actor_of(request, roles & PERMISSIONS[permission])
    if not request.actor.roles:
        request.actor = actor_of(request, roles)
        _line(request, permission, "refused", names)
        raise PermissionDenied
    return {**names, **rows}


def actor_of(request: HttpRequest, roles: frozenset[str] = frozenset()) -> Actor:
    """Who acts in this request, with the roles the act leans on; nobody's where nobody is signed in."""
    user = request.user if request.user.is_authenticated else None
    return Actor(
        clinician=user.clinician if user else None,
        user=user,
        roles=tuple(sorted(roles)),
        address=client_address(request),
        request_id=request.reference,
    )


def _line(request: HttpRequest, verb: str, outcome: str, names: Mapping[str, Any]) -> None:
    """What the address names is written down as it was asked for, there or not."""
    asked = [f"{name} {names[name]}" for name in reversed([*NAMED, "clinician", "nurse"]) if name in names]
    unit = names.get("unit", "") if outcome == "not there" else request.unit or ""
    leave_read_line(
        actor=request.actor,
        verb=verb,
        outcome=outcome,
        unit=unit,
        stay=names.get("stay", ""),
        object=next(iter(asked), request.resolver_match.url_name or ""),
    )
