"""Who of a unit has left and is still to be rung: four queries, however many they are.

A call promised on a sheet of leaving against the plan is owed from its signing on, before anybody notes that they left.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Q

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


@dataclass(frozen=True, slots=True)
class Leaving:
    """When somebody left, when that was noted, and the last moment noted of them before: they were here then."""

    at: datetime
    noted_at: datetime
    here_at: datetime


def calls_owed(unit: Unit, now: datetime) -> list[Owed]:
    """Those whose call falls due first, first."""
    policy = policy_for(unit, now)
    promises = promised_calls(unit, now - policy.calls_listed)
    gone, promised = Q(state="left"), Q(stay__in=promises) & ~Q(state__in=ENDED)
    rows = StayNow.objects.filter(gone | promised, unit=unit)
    kept = list(rows.values("stay_id", "stay__uid", "name", "state", "assessed"))
    left = _left([row["stay_id"] for row in kept if row["state"] == "left"], now - policy.calls_listed)
    left_at = {key: one.signed_at for key, one in promises.items()} | {key: one.at for key, one in left.items()}
    heard = _heard(left)
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


def _left(keys: list[int], since: datetime) -> dict[int, Leaving]:
    """The newest leaving of each, of those who left since a moment."""
    rows = StayEvent.objects.filter(stay__in=keys).order_by("number")
    here: dict[int, datetime] = {}
    found = {}
    for key, kind, at, noted_at in rows.values_list("stay_id", "kind", "happened_at", "recorded_at"):
        if kind == "left":
            found[key] = Leaving(at, noted_at, here.get(key, at))
        else:
            here[key] = at
    return {key: one for key, one in found.items() if one.at >= since}


def _heard(left: Mapping[int, Leaving]) -> dict[int, list[Try]]:
    """What was tried or heard since each left: of one who came back and left again, not what was heard before.

    A leaving may be noted hours late, with no time said. So what counts was written down since it was noted, and is
    said to be after the person was last noted as here, though perhaps before the noted leaving.
    """
    found: dict[int, list[Try]] = defaultdict(list)
    rows = AfterHome.objects.filter(stay__in=left).order_by("at", "pk")
    for key, kind, at, written_at in rows.values_list("stay_id", "kind", "at", "recorded_at"):
        if written_at >= left[key].noted_at and at > left[key].here_at:
            found[key].append(Try(kind, at))
    return found
