"""A form sent twice is stored once: its key, kept with the answer in the transaction of the act itself."""

import hashlib
import json
import uuid
from collections.abc import Callable, Mapping
from typing import Any

from django.db import IntegrityError, transaction

from teaching.models import RequestKey, User
from teaching.record.actor import Actor

# A form sent again from a queue carries a fresh CSRF token: what was asked for is still the same.
# A password is never content: a quick hash of it would outlive the form.
NOT_CONTENT = frozenset({"csrfmiddlewaretoken", "password"})


class MissingKey(Exception):
    """The form came without its key, or with something that is not one (HTTP 400)."""


class KeyReused(Exception):
    """The key was already used for other content, or at another address (HTTP 422)."""


def body_sha256(body: bytes | Mapping[str, Any]) -> str:
    """The hash of what was sent: raw bytes, or a form's fields (a QueryDict keeps every value of a field)."""
    if not isinstance(body, bytes):
        fields = body.lists() if hasattr(body, "lists") else body.items()
        kept = sorted((name, value) for name, value in fields if name not in NOT_CONTENT)
        body = json.dumps(kept, default=str).encode()
    return hashlib.sha256(body).hexdigest()


def once(
    *,
    actor: Actor,
    key: str | uuid.UUID | None,
    route: str,
    body: bytes | Mapping[str, Any],
    act: Callable[[], str],
) -> str:
    """Call `act` in one transaction and keep its answer (at most 300 characters, such as where to go next).

    The same key, route and body again gives the earlier answer without acting. Whatever `act` raises passes
    through and burns nothing. Raises MissingKey, KeyReused.
    """
    if actor.user is None:
        raise MissingKey("A form's key belongs to somebody signed in.")
    try:
        wanted = uuid.UUID(str(key))
    except ValueError:
        raise MissingKey("The form came without its key. Open the page again and send that one.") from None
    sha256 = body_sha256(body)
    with transaction.atomic():
        row, made = _claim(actor.user, wanted, route, sha256)
        if not made:
            if (row.route, row.body_sha256) != (route, sha256):
                raise KeyReused("This form was sent before with other content. Open it again to send it new.")
            return row.answer
        row.answer = act()
        row.save(update_fields=["answer"])
        return row.answer


def _claim(user: User, key: uuid.UUID, route: str, sha256: str) -> tuple[RequestKey, bool]:
    """Our row, or the one that was there first.

    Inserting before acting makes a second sender wait for the first one's end: on PostgreSQL at the unique
    key, on SQLite already at BEGIN IMMEDIATE. If the first is refused, its row is gone and the second acts.
    """
    try:
        with transaction.atomic():
            return RequestKey.objects.create(user=user, key=key, route=route, body_sha256=sha256), True
    except IntegrityError:
        return RequestKey.objects.get(user=user, key=key), False
