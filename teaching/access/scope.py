"""What exists for the person asking: their roles, read once a request. Lists begin from them, rows are held to them.

Roles are the newest membership of each (clinician, unit, role). A stoma nurse's is on the whole hospital.
What lies outside is not forbidden: for this person it is not there.
"""

import functools
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from operator import attrgetter
from typing import Any

from django.db.models import Model, Q, QuerySet

from teaching.access.permissions import PERMISSIONS, allows
from teaching.models import (
    Account,
    Caution,
    Clinician,
    Draft,
    Event,
    Kit,
    Learner,
    Membership,
    Paper,
    Practice,
    StaffPaper,
    Stay,
    Stoma,
    Unit,
    User,
)
from teaching.record.prepared import read
from teaching.rules.vocabulary import HOSPITAL_ROLES

MEMBERSHIP = ("number", "unit_id", "role", "action")
GRANTING = frozenset().union(*PERMISSIONS.values())  # the roles that open anything at all

# What an address may name: the model, and the way from it to the unit it belongs to.
NAMED: dict[str, tuple[type[Model], str]] = {
    "unit": (Unit, ""),
    "stay": (Stay, "now__unit"),
    "stoma": (Stoma, "stay__now__unit"),
    "kit": (Kit, "stay__now__unit"),
    "learner": (Learner, "stay__now__unit"),
    "caution": (Caution, "stay__now__unit"),
    "account": (Account, "stay__now__unit"),
    "event": (Event, "stay__now__unit"),
    "draft": (Draft, "stay__now__unit"),
    "paper": (Paper, "stay__now__unit"),
    "practice": (Practice, "unit"),
    "staff_paper": (StaffPaper, "unit"),
}


class NotThere(Exception):
    """Nothing of that name exists for the person asking."""


@dataclass(frozen=True)
class Held:
    """The roles one person holds now: by unit id, and on the whole hospital."""

    by_unit: Mapping[int, frozenset[str]] = field(default_factory=dict)
    hospital: frozenset[str] = frozenset()

    def on(self, unit: Unit) -> frozenset[str]:
        return self.hospital | self.by_unit.get(unit.pk, frozenset())

    @property
    def anywhere(self) -> frozenset[str]:
        return self.hospital.union(*self.by_unit.values())


def held_by(user: User) -> Held:
    """The roles of the user; one query, kept on the user object, which lives as long as the request."""
    if not user.is_active:
        return Held()
    if not hasattr(user, "_held"):  # request.user is a lazy wrapper, so its own __dict__ would never hold it
        user._held = _read(user)  # type: ignore[attr-defined]
    return user._held  # type: ignore[attr-defined]


def _read(user: User) -> Held:
    rows = sorted(read(Membership, MEMBERSHIP, "clinician_id", [user.clinician_id]), key=attrgetter("number"))
    newest = {(row.unit_id, row.role): row.action for row in rows}
    roles: dict[int | None, set[str]] = {}
    for (unit, role), action in newest.items():
        if action == "grant":
            roles.setdefault(unit, set()).add(role)
    hospital = frozenset(roles.pop(None, ()))
    return Held({unit: frozenset(names) for unit, names in roles.items() if unit is not None}, hospital)


def units_for(user: User, permission: str) -> QuerySet[Unit]:
    """The units on which the user holds the permission, by name."""
    held, granting = held_by(user), PERMISSIONS[permission]
    if held.hospital & granting:
        return Unit.objects.order_by("name")
    own = [pk for pk, roles in held.by_unit.items() if roles & granting]
    return Unit.objects.filter(pk__in=own).order_by("name")


def stays_for(user: User, permission: str) -> QuerySet[Stay]:
    """The stays that are now on a unit where the user holds the permission."""
    return Stay.objects.filter(now__unit__in=units_for(user, permission))


def staff_of(unit: Unit) -> QuerySet[Clinician]:
    """Everyone who holds or held a role on the unit; hospital-wide roles are not a unit's to manage."""
    return Clinician.objects.filter(memberships__unit=unit).distinct()


def nurses_of(unit: Unit) -> QuerySet[Clinician]:
    """The staff of the unit, and those with a role in the whole hospital: their skills are seen here too."""
    here = Q(memberships__unit=unit) | Q(memberships__role__in=HOSPITAL_ROLES)
    return Clinician.objects.filter(here).distinct()


def may(user: User, permission: str, unit: Unit | None = None) -> bool:
    """Whether the user holds the permission on the unit, or anywhere where no unit is given."""
    held = held_by(user)
    return allows(held.anywhere if unit is None else held.on(unit), permission)


def find(user: User, names: Mapping[str, Any]) -> tuple[dict[str, Model], Unit | None]:
    """The objects an address names, by uid, and the unit they stand on (None where it names none).

    Raises NotThere for what is not there, lies on no unit of the user's, or does not belong to what stands
    beside it in the address.
    """
    found: dict[str, Model] = {}
    units, held = set(), held_by(user)
    for name in NAMED:
        if name not in names:
            continue
        found[name], unit = _row(name, names[name])
        if unit is None or held.on(unit).isdisjoint(GRANTING):
            raise NotThere(name)
        units.add(unit)
    stays = {getattr(row, "stay_id", row.pk) for name, row in found.items() if name != "unit"}
    if len(units) > 1 or len(stays) > 1:
        raise NotThere(", ".join(found))
    for name, of in (("clinician", staff_of), ("nurse", nurses_of)):
        if name in names:
            found[name] = _staff(units, of, name, names[name])
    return found, next(iter(units), None)


def _row(name: str, uid: Any) -> tuple[Any, Unit | None]:
    """Whoever asks: the row of that uid and the unit it belongs to."""
    model, way = NAMED[name]
    rows: Any = model._default_manager.filter(uid=uid)
    row = rows.filter(**{f"{way}__isnull": False}).select_related(way).first() if way else rows.first()
    return row, functools.reduce(getattr, way.split("__"), row) if row and way else row


def _staff(units: set, of: Callable[[Unit], QuerySet[Clinician]], name: str, uid: Any) -> Clinician:
    """Staff are named beside their unit only."""
    person = next((of(unit).filter(uid=uid).first() for unit in units), None)
    if person is None:
        raise NotThere(name)
    return person
