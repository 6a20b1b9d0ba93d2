"""What a unit lead may and may not do to the staff of a unit, before the record's own verbs are asked."""

from axes.utils import reset

from teaching.access.roster import Member
from teaching.access.scope import units_for
from teaching.record import staff
from teaching.record.actor import Actor
from teaching.record.refusals import refuse


def register_nurse(actor: Actor, unit, said: dict) -> tuple:
    """A new colleague with a first role and a sign-in: (clinician, first password)."""
    clinician = staff.register_clinician(
        actor=actor, name=said["name"], grade=said["grade"], registration=said["registration"]
    )
    staff.grant_role(actor=actor, clinician=clinician, role=said["role"], unit=unit)
    _, password = staff.open_account(actor=actor, clinician=clinician, username=said["username"])
    return clinician, password


def take_back_role(actor: Actor, member: Member, role: str, unit) -> None:
    """A lead does not take back the own lead role, so a unit never loses its last one by a slip."""
    if role == "lead" and member.clinician == actor.clinician:
        refuse("", "You cannot take back your own role of unit lead. Ask another lead to do it.")
    staff.revoke_role(actor=actor, clinician=member.clinician, role=role, unit=unit)


def close_account(actor: Actor, member: Member) -> None:
    """Closing ends the sign-in everywhere, so it takes a lead of every unit where the person works."""
    user = _account(actor, member, "Take back the roles here instead; the sign-in stays for the other unit.")
    staff.close_account(actor=actor, user=user)


def give_first_password(actor: Actor, member: Member) -> str:
    """For somebody who lost theirs; a name locked by wrong tries is free again.

    Whoever gives a password could use it, so it takes a lead of every unit that it opens.
    """
    user = _account(
        actor, member, "Somebody who leads both units, or the hospital's administrator, gives it."
    )
    password = staff.give_first_password(actor=actor, user=user)
    reset(username=user.username)
    return password


def _account(actor: Actor, member: Member, otherwise: str):
    """The sign-in of somebody else who works on no unit that the actor does not lead."""
    if member.user is None:
        refuse("", "This person has no sign-in yet. Open one for them first.")
    if member.clinician == actor.clinician:
        refuse("", "This is your own sign-in. Ask another lead, or change your password on its own page.")
    led = set(units_for(actor.user, "manage_staff").values_list("pk", flat=True))
    if not member.elsewhere <= led:
        refuse("", f"This person also works where you are not the lead. {otherwise}")
    return member.user
