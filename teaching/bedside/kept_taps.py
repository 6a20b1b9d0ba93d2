"""What a device kept while the network was gone: read, and put into the draft it belongs to."""

import json
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from django.core.exceptions import BadRequest
from django.utils.dateparse import parse_datetime

from teaching.access.device import LASTS_SECONDS, token_for, words_in
from teaching.access.scope import stays_for
from teaching.bedside.recorders import RECORDERS, Recorder
from teaching.bedside.taps import uid_in

MOST = 500  # more taps than a night of lessons


@dataclass(frozen=True, slots=True)
class KeptTap:
    """One tap as the device held it; `at` is by the device's clock."""

    client_id: UUID
    which: str
    field: str
    value: Any
    base: UUID | None
    at: datetime | None


@dataclass(frozen=True, slots=True)
class Device:
    """What a recorder's page hands to the device: no identity in either."""

    token: str
    checklist: str


def device_of(user, stay, recorder: Recorder, chart) -> Device:
    return Device(token_for(user, str(stay.uid), recorder.name), version_of(chart))


def version_of(chart) -> str:
    return f"{chart.checklist.code} {chart.checklist.number}"


def belongs_to(token: str, user):
    """(stay, recorder) of a token that was given to this user, where they may still record; else None."""
    words = words_in(token, user)
    recorder = next((one for one in RECORDERS if words and one.name == words[1]), None)
    if recorder is None:
        return None
    stay = stays_for(user, recorder.permission).filter(uid=words[0]).select_related("now__unit").first()
    return (stay, recorder) if stay else None


def taps_in(body: str) -> list[KeptTap]:
    """Raises BadRequest for what our script never sends."""
    try:
        told = json.loads(body)
        return [_tap(one) for one in told[:MOST]]
    except (ValueError, TypeError, KeyError, AttributeError):
        raise BadRequest("These are not taps as a device keeps them.") from None


def _tap(one: dict) -> KeptTap:
    client_id = uid_in(str(one["id"]))
    if client_id is None:
        raise ValueError
    base, at = uid_in(str(one.get("base") or "")), parse_datetime(str(one.get("at", "")))
    return KeptTap(client_id, str(one["which"]), str(one["field"]), one["value"], base, at)


def begun(taps: list[KeptTap], clock: str, now: datetime) -> datetime | None:
    """When the first was tapped, by our clock: the device's own error is taken out. None where it makes no sense."""
    device_now, first = parse_datetime(clock) if clock else None, taps[0].at
    if not (device_now and first and device_now.tzinfo and first.tzinfo):
        return None
    ago = device_now - first
    return now - ago if timedelta(0) <= ago <= timedelta(seconds=LASTS_SECONDS) else None
