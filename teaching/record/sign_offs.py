"""A sign-off: only when what is required was seen, by a holder, never for oneself; and one of two that race wins."""

from django.db.models import F
from django.utils import timezone

from teaching.models import Account, Clinician, Practice, SignOff, StayNow, Unit
from teaching.models.staff import SKILLS
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.nurses import nurse as facts_of
from teaching.record.places import policy_for, ward_of
from teaching.record.proof import proved
from teaching.record.refusals import refuse
from teaching.record.skills import skill_of, version_in_force
from teaching.record.staff import sign_offs_of, valid_among
from teaching.record.writing import done, next_number, one_at_a_time, writing
from teaching.rules.competence import lasts_until, standing
from teaching.rules.reasons import words


def sign_off(*, actor: Actor, nurse: Clinician, skill: str, unit: Unit) -> SignOff:
    """Signed off from now until the end of the day, months later, as the hospital's policy has it now.

    Raises Refused with each thing still required. What stays taught by this nurse lean on moves their revision.
    """
    assessor, faults = somebody(actor), Faults()
    faults.word("skill", skill, SKILLS)
    faults.stop()
    if assessor == nurse:
        refuse("nurse", "Nobody signs for themselves. Ask a colleague who holds the skill.")
    proved(actor)
    version, ward = version_in_force(skill), ward_of(unit)
    with writing():
        for uid in sorted((str(nurse.uid), str(assessor.uid))):  # in one order, so that two never wait for each other
            one_at_a_time("sign off", uid, skill)
        now = timezone.now()  # whoever waited reads the clock anew, or would not see what was signed meanwhile
        if valid_among(sign_offs_of(assessor), (skill,), now) is None:
            refuse("", f"Only a holder signs it off, and you are not signed off now ({SKILLS[skill]}). Ask a holder.")
        policy = policy_for(None, now)
        stands = standing(facts_of(nurse.pk), skill_of(version), policy, now, ward)
        for reason in stands.required:
            faults.add("", words(reason))
        faults.stop()
        made = SignOff.objects.create(
            nurse=nurse, skill=skill, number=next_number(SignOff, nurse=nurse, skill=skill), kind="granted",
            assessor=assessor, practice=Practice.objects.get(uid=stands.counted[-1].key), skill_version=version,
            valid_from=now, valid_until=lasts_until(now, policy, ward), by=assessor,
        )
        StayNow.objects.filter(stay__in=Account.objects.filter(rater=nurse).values("stay")).update(
            revision=F("revision") + 1
        )
        done(actor, "sign_off", made, unit=unit)
    return made
