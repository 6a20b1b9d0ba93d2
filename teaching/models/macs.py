"""The keyed MACs of the trail: HMAC-SHA256 with a key that stands in the settings, never in the database."""

import hashlib
import hmac
import json
from collections.abc import Iterable
from datetime import UTC, datetime
from typing import Any

from django.conf import settings

# In this order for good: a line's MAC covers exactly these.
WHO = ("uid", "at", "actor", "role")
WHAT = ("verb", "outcome", "unit", "stay", "object")
LINE_FIELDS = (*WHO, *WHAT, "origin", "request_id", "key_id")
SEAL_FIELDS = ("number", "first_id", "last_id", "count", "previous_mac", "key_id", "sealed_at")


class UnknownKey(Exception):
    """A row was signed with a key that the settings do not hold (any more)."""


def trail_key(key_id: str) -> bytes:
    """The key of that name: TRAIL_KEY, or one kept in TRAIL_OLD_KEYS after a change of key."""
    if key_id == settings.TRAIL_KEY_ID:
        return settings.TRAIL_KEY
    try:
        return getattr(settings, "TRAIL_OLD_KEYS", {})[key_id]
    except KeyError:
        raise UnknownKey(key_id) from None


def line_mac(line: Any) -> str:
    """The MAC of a TrailLine over all it says, as 64 hex digits. Raises UnknownKey."""
    return _sign(line.key_id, "line", _canonical(line, LINE_FIELDS), ()).hexdigest()


def seal_mac(seal: Any, lines: Iterable[tuple[int, str]]) -> str:
    """The MAC of a Seal over its fields, the seal before it, and (id, mac) of every line in order of id."""
    return _sign(seal.key_id, "seal", _canonical(seal, SEAL_FIELDS), lines).hexdigest()


def _canonical(row: Any, fields: tuple[str, ...]) -> str:
    """The fields as one JSON list, times as UTC to the microsecond; JSON's quoting keeps fields apart."""
    return json.dumps([getattr(row, field) for field in fields], default=_plain)


def _plain(value: Any) -> str:
    moment = isinstance(value, datetime)
    return value.astimezone(UTC).isoformat(timespec="microseconds") if moment else str(value)


def _sign(key_id: str, kind: str, head: str, lines: Iterable[tuple[int, str]]) -> hmac.HMAC:
    signing = hmac.new(trail_key(key_id), f"{kind}\n{head}".encode(), hashlib.sha256)
    for number, mac in lines:
        signing.update(f"\n{number} {mac}".encode())
    return signing
