"""Who of a unit has left and is still to be rung: three queries, however many they are."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Max

from teaching.models import AfterHome, StayEvent, StayNow, Unit
from teaching.record.places import policy_for
from teaching.rules.call_home import Call, Try, call_home


@dataclass(frozen=True, slots=True)
class Owed:
    """One person to ring. `heard` is all that was tried, oldest first: (kind, moment)."""

    stay: str
    name: str
    kinds: tuple[str, ...]
    left_at: datetime
    call: Call
    heard: tuple[Try, ...]


def calls_owed(unit: Unit, now: datetime) -> list[Owed]:
    """Those whose call falls due first, first."""
    policy = policy_for(unit, now)
    kept = StayNow.objects.filter(unit=unit, state="left").values("stay_id", "stay__uid", "name", "assessed")
    left = _left([row["stay_id"] for row in kept], now - policy.calls_listed)
    heard = _heard(list(left))
    found = []
    for row in kept:
        key = row["stay_id"]
        if key not in left:
            continue
        kinds = tuple(stoma["kind"] for stoma in row["assessed"].get("stomas", ()))
        call = call_home(kinds, left[key], heard[key], policy, now)
        if call:
            found.append(Owed(str(row["stay__uid"]), row["name"], kinds, left[key], call, tuple(heard[key])))
    return sorted(found, key=lambda one: (one.call.by, one.name))


def _left(keys: list[int], since: datetime) -> dict[int, datetime]:
    """When each left, of those who left since a moment."""
    rows = StayEvent.objects.filter(stay__in=keys, kind="left").values("stay_id").annotate(at=Max("happened_at"))
    return {row["stay_id"]: row["at"] for row in rows if row["at"] >= since}


def _heard(keys: list[int]) -> dict[int, list[Try]]:
    found: dict[int, list[Try]] = defaultdict(list)
    rows = AfterHome.objects.filter(stay__in=keys).order_by("at", "pk").values_list("stay_id", "kind", "at")
    for key, kind, at in rows:
        found[key].append(Try(kind, at))
    return found
