"""Who works on a unit now, the hospital's own staff among them: for pages that show everyone's skills."""

from dataclasses import dataclass
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


def teaching_on(unit: Unit) -> dict[int, Working]:
    """Those who may be ticked to teach on the unit, by key; one query."""
    return {each.key: each for each in working_on(unit) if each.roles & TEACHERS}
