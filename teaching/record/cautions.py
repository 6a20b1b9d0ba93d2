"""Cautions: stored at the tap, then told, settled, or withdrawn as a slip of the finger. Never derived again."""

from datetime import datetime
from typing import Any
from uuid import UUID

from django.utils import timezone

from teaching.models import Caution, CautionStep, Stay, Stoma
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.figures import refresh
from teaching.record.places import policy_for
from teaching.record.refusals import refuse
from teaching.record.writing import done, writing
from teaching.rules.cautions import settling_faults
from teaching.rules.facts import Caution as CautionFact
from teaching.rules.lines import OFF
from teaching.rules.reasons import words


def raise_caution(
    *, actor: Actor, stay: Stay, sign: str, at: datetime, stoma: Stoma | None = None, event_uid: UUID | None = None
) -> Caution:
    """Store a sign with its list and words as this unit's policy has them now. `event_uid`: the session in hand."""
    signer, now = somebody(actor), timezone.now()
    with writing(stay) as locked:
        assert locked is not None
        policy = policy_for(locked.unit, now)
        faults = Faults()
        faults.moment("at", at, now)
        faults.word("sign", sign, [each.code for each in policy.signs if each.list != OFF])
        if stoma is not None and stoma.stay_id != stay.pk:
            faults.add("stoma", "This stoma belongs to somebody else. Choose one of this person's.")
        faults.stop()
        told = policy.sign[sign]
        made = Caution.objects.create(
            stay=stay,
            stoma=stoma,
            event_uid=event_uid,
            sign=sign,
            list=told.list,
            words=policy.words(told),
            policy_version=policy.version,
            at=at,
            by=signer,
            recorded_at=now,
        )
        refresh(stay)
        done(actor, "raise_caution", made, stay=stay, unit=locked.unit)
    return made


def tell_caution(
    *, actor: Actor, caution: Caution, whom: str, at: datetime, answer: str = "", look_again_at: datetime | None = None
) -> CautionStep:
    """Who was told and what they answered. Telling somebody again is a newer step; the first one stays on record."""
    faults = Faults()
    faults.text("whom", whom, 120, "Whom you told")
    faults.text("answer", answer, 300)
    if look_again_at is not None and look_again_at <= at:
        faults.add("look_again_at", "Looking again comes after telling; give a later time.")
    return _step(actor, caution, "told", faults, whom=whom, answer=answer, look_again_at=look_again_at, at=at)


def settle_caution(*, actor: Actor, caution: Caution, at: datetime, whom: str = "", answer: str = "") -> CautionStep:
    """A later normal finding, or a named clinician's word. Only after it was told."""
    faults = Faults()
    faults.text("whom", whom, 120)
    faults.text("answer", answer, 300)
    for reason in settling_faults(_fact(caution), at):
        faults.add("at", words(reason))
    return _step(actor, caution, "settled", faults, whom=whom, answer=answer, at=at)


def withdraw_caution(*, actor: Actor, caution: Caution, at: datetime, answer: str) -> CautionStep:
    """Tapped by mistake: it no longer stands, and both the tap and this stay readable."""
    faults = Faults()
    faults.text("answer", answer, 300, "What was tapped by mistake")
    return _step(actor, caution, "withdrawn", faults, answer=answer, at=at)


def _step(actor: Actor, caution: Caution, kind: str, faults: Faults, *, at: datetime, **said: Any) -> CautionStep:
    signer, now = somebody(actor), timezone.now()
    if faults.moment("at", at, now) and at < caution.at:
        faults.add("at", "This is before the caution itself was seen; give a later time.")
    faults.stop()
    with writing(caution.stay) as locked:
        assert locked is not None
        steps = list(CautionStep.objects.filter(caution=caution).order_by("number"))
        if steps and steps[-1].kind != "told":
            refuse("", f"This caution is already {steps[-1].get_kind_display()}.")
        made = CautionStep.objects.create(
            stay=caution.stay,
            caution=caution,
            number=len(steps) + 1,
            kind=kind,
            happened_at=at,
            by=signer,
            recorded_at=now,
            **{name: value.strip() if isinstance(value, str) else value for name, value in said.items()},
        )
        refresh(caution.stay)
        done(actor, f"{kind}_caution", made, stay=caution.stay, unit=locked.unit)
    return made


def _fact(caution: Caution) -> CautionFact:
    told = CautionStep.objects.filter(caution=caution, kind="told").order_by("-number").first()
    return CautionFact(
        key=str(caution.uid),
        sign=caution.sign,
        list=caution.list,
        words=caution.words,
        at=caution.at,
        told=told.happened_at if told else None,
    )
