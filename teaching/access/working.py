"""Who works on a unit now, the hospital's own staff among them: for pages that show everyone's skills."""

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db.models import Q

from teaching.models import Membership, Unit

TEACHERS = frozenset({"ward-nurse", "stoma-nurse"})


@dataclass(frozen=True, slots=True)
class Working:
    """A clinician by key and uid, and the roles held now on this unit or in the whole hospital."""

    key: int
    uid: UUID
    roles: frozenset[str]


def working_on(unit: Unit) -> list[Working]:
    """Everyone with a role now; one query, in no order."""
    rows = Membership.objects.filter(Q(unit=unit) | Q(unit=None)).order_by("number")
    read = rows.values_list("clinician_id", "clinician__uid", "unit_id", "role", "action")
    newest = {(key, uid, where, role): action for key, uid, where, role, action in read}
    held: dict[tuple[int, UUID], set[str]] = {}
    for (key, uid, _, role), action in newest.items():
        if action == "grant":
            held.setdefault((key, uid), set()).add(role)
    return [Working(key, uid, frozenset(roles)) for (key, uid), roles in held.items()]


def worked_on(unit: Unit, first: datetime, last: datetime) -> list[Working]:
    """Everyone with a role at some moment of a span, both ends within, and the roles held in it; one query."""
    rows = Membership.objects.filter(Q(unit=unit) | Q(unit=None), recorded_at__lte=last).order_by("number")
    read = rows.values_list("clinician_id", "clinician__uid", "unit_id", "role", "action", "recorded_at")
    held: dict[tuple[int, UUID], dict[tuple[int | None, str], str]] = {}
    within: set[tuple[int, int | None, str]] = set()
    for key, uid, where, role, action, at in read:
        held.setdefault((key, uid), {})[where, role] = action
        if at >= first:  # granted in the span, or taken away in it and so held at its start
            within.add((key, where, role))
    found = []
    for (key, uid), roles in held.items():
        had = {role for (where, role), action in roles.items() if action == "grant" or (key, where, role) in within}
        if had:
            found.append(Working(key, uid, frozenset(had)))
    return found


def teaching_on(unit: Unit) -> dict[int, Working]:
    """Those who may be ticked to teach on the unit, by key; one query."""
    return {each.key: each for each in working_on(unit) if each.roles & TEACHERS}
