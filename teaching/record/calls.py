"""Who of a unit has left and is still to be rung: four queries, however many they are.

A call promised on a sheet of leaving against the plan is owed from its signing on, before anybody notes that they left.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Max, Q

from teaching.models import AfterHome, StayEvent, StayNow, Unit
from teaching.record.places import policy_for
from teaching.record.promised_calls import promised_calls
from teaching.record.stays import ENDED
from teaching.rules.call_home import Call, Try, call_home


@dataclass(frozen=True, slots=True)
class Owed:
    """One person to ring. `heard` is all that was tried since, oldest first: (kind, moment).

    `noted` False: the sheet is signed, and nobody has noted that they left. `promised_by`: who is to ring, or "".
    """

    stay: str
    name: str
    kinds: tuple[str, ...]
    left_at: datetime
    call: Call
    heard: tuple[Try, ...]
    noted: bool = True
    promised_by: str = ""


def calls_owed(unit: Unit, now: datetime) -> list[Owed]:
    """Those whose call falls due first, first."""
    policy = policy_for(unit, now)
    promises = promised_calls(unit, now - policy.calls_listed)
    gone, promised = Q(state="left"), Q(stay__in=promises) & ~Q(state__in=ENDED)
    rows = StayNow.objects.filter(gone | promised, unit=unit)
    kept = list(rows.values("stay_id", "stay__uid", "name", "state", "assessed"))
    left = _left([row["stay_id"] for row in kept if row["state"] == "left"], now - policy.calls_listed)
    left_at = {key: one.signed_at for key, one in promises.items()} | left
    heard = _heard(left_at)
    found = []
    for row in kept:
        key = row["stay_id"]
        noted = row["state"] == "left"
        if noted and key not in left:
            continue
        kinds = tuple(stoma["kind"] for stoma in row["assessed"].get("stomas", ()))
        promise = promises.get(key)
        call = call_home(kinds, left_at[key], heard[key], policy, now, promise.by if promise else None)
        if call:
            who = promise.who if promise else ""
            uid, tries = str(row["stay__uid"]), tuple(heard[key])
            found.append(Owed(uid, row["name"], kinds, left_at[key], call, tries, noted, who))
    return sorted(found, key=lambda one: (one.call.by, one.name))


def _left(keys: list[int], since: datetime) -> dict[int, datetime]:
    """When each left, of those who left since a moment."""
    rows = StayEvent.objects.filter(stay__in=keys, kind="left").values("stay_id").annotate(at=Max("happened_at"))
    return {row["stay_id"]: row["at"] for row in rows if row["at"] >= since}


def _heard(left_at: Mapping[int, datetime]) -> dict[int, list[Try]]:
    """What was tried or heard since each left: of one who came back and left again, not what was heard before."""
    found: dict[int, list[Try]] = defaultdict(list)
    rows = AfterHome.objects.filter(stay__in=left_at).order_by("at", "pk").values_list("stay_id", "kind", "at")
    for key, kind, at in rows:
        if at >= left_at[key]:
            found[key].append(Try(kind, at))
    return found
