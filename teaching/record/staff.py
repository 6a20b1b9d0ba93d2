"""Staff: who they are, what roles they hold, how they sign in, and a certificate accepted from elsewhere."""

import secrets
from collections.abc import Sequence
from datetime import datetime

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db.models import F
from django.utils import timezone

from teaching.models import (
    Account,
    Clinician,
    ClinicianDetails,
    Membership,
    SignOff,
    StayNow,
    Unit,
    User,
)
from teaching.models.staff import SKILLS
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.places import policy_for, ward_of
from teaching.record.prepared import read
from teaching.record.refusals import refuse
from teaching.record.writing import done, next_number, one_at_a_time, writing
from teaching.rules.competence import months_later, spoken_day
from teaching.rules.vocabulary import GRADES, HOSPITAL_ROLES, ROLES

SIGNED_OFF = ("id", "uid", "nurse_id", "skill", "number", "kind", "valid_from", "valid_until")


def register_clinician(*, actor: Actor, name: str, grade: str, registration: str = "") -> Clinician:
    """Somebody who works here, with or without a sign-in."""
    faults = Faults()
    faults.text("name", name, 120, "The name")
    faults.word("grade", grade, GRADES)
    faults.text("registration", registration, 40)
    faults.stop()
    with writing():
        clinician = Clinician.objects.create(registration=registration.strip(), by=actor.clinician)
        ClinicianDetails.objects.create(clinician=clinician, name=name.strip(), grade=grade, by=actor.clinician)
        done(actor, "register_clinician", clinician)
    return clinician


def change_details(*, actor: Actor, clinician: Clinician, name: str, grade: str) -> ClinicianDetails:
    """Another name or grade from now on; what was signed before keeps the grade it was signed with."""
    faults = Faults()
    faults.text("name", name, 120, "The name")
    faults.word("grade", grade, GRADES)
    faults.stop()
    with writing():
        details = ClinicianDetails.objects.create(
            clinician=clinician, number=next_number(ClinicianDetails, clinician=clinician),
            name=name.strip(), grade=grade, by=actor.clinician,
        )
        done(actor, "change_details", clinician)
    return details


def grant_role(*, actor: Actor, clinician: Clinician, role: str, unit: Unit | None = None) -> Membership:
    return _membership(actor, clinician, role, unit, "grant")


def revoke_role(*, actor: Actor, clinician: Clinician, role: str, unit: Unit | None = None) -> Membership:
    return _membership(actor, clinician, role, unit, "revoke")


def _membership(actor: Actor, clinician: Clinician, role: str, unit: Unit | None, action: str) -> Membership:
    faults = Faults()
    faults.word("role", role, ROLES)
    if role in HOSPITAL_ROLES and unit is not None:
        faults.add("unit", f"A {ROLES[role]} works in the whole hospital; leave the unit out.")
    if role in ROLES and role not in HOSPITAL_ROLES and unit is None:
        faults.add("unit", f"Say on which unit the role of {ROLES[role]} is held.")
    if action == "grant" and actor.clinician is not None and actor.clinician == clinician:
        faults.add("clinician", "Nobody gives a role to themselves; ask another unit lead.")
    faults.stop()
    with writing():
        earlier = Membership.objects.filter(clinician=clinician, unit=unit, role=role).order_by("-number").first()
        if (earlier.action if earlier else "revoke") == action:
            held = "already holds this role; nothing to grant" if earlier and action == "grant" else "does not hold it"
            refuse("role", f"This person {held}.")
        made = Membership.objects.create(
            clinician=clinician, unit=unit, role=role, action=action,
            number=earlier.number + 1 if earlier else 1, by=actor.clinician,
        )
        done(actor, f"{action}_role", made)
    return made


def open_account(*, actor: Actor, clinician: Clinician, username: str) -> tuple[User, str]:
    """A sign-in and its first password, which must be changed at the first sign-in. It is shown once, never kept."""
    username = User.normalize_username(username.strip())
    faults = Faults()
    faults.text("username", username, 60, "The sign-in name")
    if User.objects.filter(username__iexact=username).exists():
        faults.add("username", "This sign-in name is taken; choose another.")
    if User.objects.filter(clinician=clinician).exists():
        faults.add("clinician", "This person already has a sign-in.")
    faults.stop()
    password = _first_password()
    with writing():
        user = User.objects.create_user(
            username=username, password=password, clinician=clinician, must_change_password=True
        )
        done(actor, "open_account", clinician)
    return user, password


def give_first_password(*, actor: Actor, user: User) -> str:
    """Another first password for somebody who lost theirs; every session of theirs ends. Shown once, never kept."""
    if not user.is_active:
        refuse("username", "This sign-in is closed; it gets no new password.")
    password = _first_password()
    with writing():
        user.set_password(password)
        user.must_change_password = True
        user.sessions_ended += 1
        user.save(update_fields=["password", "must_change_password", "sessions_ended"])
        done(actor, "give_first_password", user.clinician)
    return password


def _first_password() -> str:
    """Four groups of four that can be read out and typed on a tablet: no l or 1, no o or 0; about 79 bits."""
    letters = "abcdefghjkmnpqrstuvwxyz23456789"
    return "-".join("".join(secrets.choice(letters) for _ in range(4)) for _ in range(4))


def change_password(*, actor: Actor, user: User, password: str) -> User:
    """A new password for a sign-in; every other session of it ends. Raises Refused with each rule it breaks."""
    try:
        validate_password(password, user)
    except ValidationError as trouble:
        faults = Faults()
        for sentence in trouble.messages:
            faults.add("password", sentence)
        faults.stop()
    if user.check_password(password):
        refuse("password", "This is the password you have now; choose another.")
    with writing():
        user.set_password(password)
        user.must_change_password = False
        user.save(update_fields=["password", "must_change_password"])
        done(actor, "change_password", user.clinician)
    return user


def end_sessions(*, actor: Actor, user: User) -> User:
    """Ends every session of this user at once, on every device."""
    with writing():
        User.objects.filter(pk=user.pk).update(sessions_ended=F("sessions_ended") + 1)
        done(actor, "end_sessions", user.clinician)
    user.refresh_from_db(fields=["sessions_ended"])
    return user


def close_account(*, actor: Actor, user: User) -> User:
    """Nobody signs in with it any more; what was signed stays."""
    if not user.is_active:
        refuse("username", "This sign-in is already closed.")
    with writing():
        user.is_active = False
        user.sessions_ended += 1
        user.save(update_fields=["is_active", "sessions_ended"])
        done(actor, "close_account", user.clinician)
    return user


def accept_certificate(
    *,
    actor: Actor,
    nurse: Clinician,
    skill: str,
    unit: Unit,
    certificate: str,
    valid_from: datetime,
    valid_until: datetime,
) -> SignOff:
    """A skill signed off elsewhere, accepted by name on a unit. Never one's own.

    It lasts to the end of its last day on the unit's own clock, as a sign-off does, and is judged by days.
    """
    faults, ward, longest = Faults(), ward_of(unit), policy_for(None, timezone.now()).sign_off_longest
    first, last = ward.date(valid_from), ward.date(valid_until)
    faults.word("skill", skill, SKILLS)
    faults.text("certificate", certificate, 200, "Who issued the certificate, and when,")
    if actor.clinician == nurse:
        faults.add("nurse", "Nobody signs for themselves; ask another lead.")
    if last < first:
        faults.add("valid_until", "It ends before it starts; correct one of the two dates.")
    elif (held := valid_among(sign_offs_of(nurse), (skill,), timezone.now())) and ward.ends(last) < held.valid_until:
        until = spoken_day(held.valid_until, ward)
        faults.add("valid_until", f"It ends before {until}, when this nurse's sign-off does, and would cut it short.")
    elif last > months_later(first, longest):
        faults.add("valid_until", f"A sign-off lasts {longest} months at most; set an earlier end.")
    faults.stop()
    return _sign_off(
        actor, "accept_certificate", nurse, skill, kind="granted", certificate=certificate.strip(),
        valid_from=valid_from, valid_until=ward.ends(last),
    )


def withdraw_sign_off(*, actor: Actor, nurse: Clinician, skill: str, reason: str) -> SignOff:
    """From now on the nurse is not signed off; sessions signed until now keep what they leaned on."""
    faults = Faults()
    faults.word("skill", skill, SKILLS)
    faults.text("reason", reason, 200, "The reason")
    if actor.clinician == nurse:
        faults.add("nurse", "Nobody signs for themselves; ask another lead.")
    faults.stop()
    now = timezone.now()
    if valid_among(sign_offs_of(nurse), (skill,), now) is None:
        refuse("skill", "This nurse is not signed off for it now; there is nothing to withdraw.")
    return _sign_off(
        actor, "withdraw_sign_off", nurse, skill, kind="withdrawn", reason=reason.strip(),
        valid_from=now, valid_until=now,
    )


def _sign_off(actor: Actor, verb: str, nurse: Clinician, skill: str, **what: object) -> SignOff:
    assessor = somebody(actor)
    with writing():
        one_at_a_time("sign off", str(nurse.uid), skill)
        made = SignOff.objects.create(
            nurse=nurse, skill=skill, number=next_number(SignOff, nurse=nurse, skill=skill),
            assessor=assessor, by=assessor, **what,
        )
        taught = Account.objects.filter(rater=nurse).values("stay")
        StayNow.objects.filter(stay__in=taught).update(revision=F("revision") + 1)
        done(actor, verb, made)
    return made


def sign_offs_of(nurse: Clinician) -> list[SignOff]:
    """All of a nurse's sign-offs and withdrawals, oldest number first."""
    known = read(SignOff, SIGNED_OFF, "nurse_id", [nurse.pk])
    return sorted((SignOff(**row._asdict()) for row in known), key=lambda each: each.number)


def valid_among(sign_offs: Sequence[SignOff], skills: Sequence[str], at: datetime) -> SignOff | None:
    """The sign-off in one of these skills that was valid at a moment: a withdrawal counts from when it was made."""
    begun = {each.skill: each for each in sign_offs if each.skill in skills and each.valid_from <= at}
    return next((each for each in begun.values() if each.kind == "granted" and at <= each.valid_until), None)
