"""Who works on a unit: names, grades, the roles held there now, and whether they can sign in."""

from dataclasses import dataclass

from teaching.access.scope import nurses_of, staff_of
from teaching.models import Clinician, ClinicianDetails, Membership, Unit, User
from teaching.rules.vocabulary import GRADES, ROLES


@dataclass(frozen=True)
class Member:
    """One of a unit's staff. `roles` are codes held there; `elsewhere` keys of other units (None: all)."""

    clinician: Clinician
    name: str
    grade: str
    roles: tuple[str, ...]
    user: User | None
    elsewhere: frozenset[int | None]

    @property
    def grade_words(self) -> str:
        return GRADES[self.grade]

    @property
    def role_words(self) -> list[tuple[str, str]]:
        return [(role, ROLES[role]) for role in self.roles]


def roster(unit: Unit) -> list[Member]:
    """Everyone who holds or held a role on the unit: those with a role first, then by name. Four queries."""
    people = list(staff_of(unit))
    details = ClinicianDetails.objects.filter(clinician__in=people).order_by("number")
    newest = {row.clinician_id: row for row in details}
    users = {user.clinician_id: user for user in User.objects.filter(clinician__in=people)}
    held = _held(people)
    members = [
        Member(
            clinician=person,
            name=newest[person.pk].name if person.pk in newest else "",
            grade=newest[person.pk].grade if person.pk in newest else "other",
            roles=tuple(role for role in ROLES if (person.pk, unit.pk, role) in held),
            user=users.get(person.pk),
            elsewhere=frozenset(where for who, where, _ in held if who == person.pk) - {unit.pk},
        )
        for person in people
    ]
    return sorted(members, key=lambda member: (not member.roles, member.name.casefold(), member.clinician.pk))


def _held(people: list[Clinician]) -> set[tuple[int, int | None, str]]:
    rows = Membership.objects.filter(clinician__in=people).order_by("number")
    read = rows.values_list("clinician", "unit", "role", "action")
    newest = {(who, unit, role): action for who, unit, role, action in read}
    return {key for key, action in newest.items() if action == "grant"}


def member_of(unit: Unit, clinician: Clinician) -> Member:
    """One of the unit's staff; KeyError for somebody who is not."""
    return {member.clinician.pk: member for member in roster(unit)}[clinician.pk]


def teachers_of(unit: Unit) -> list[tuple[Clinician, str]]:
    """Registered and stoma nurses who may be named as teachers on the unit, with their names, by name. Two queries."""
    people = {person.pk: person for person in nurses_of(unit)}
    newest = {row.clinician_id: row for row in ClinicianDetails.objects.filter(clinician__in=people).order_by("number")}
    found = [(people[pk], row.name) for pk, row in newest.items() if row.grade in ("registered", "stoma-nurse")]
    return sorted(found, key=lambda pair: pair[1].casefold())
