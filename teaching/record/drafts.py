"""Sessions begun and not signed: every tap is kept, none of it counts. Each nurse signs only what they saw."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from uuid import UUID, uuid4

from django.db import transaction
from django.utils import timezone

from teaching.models import Account, Clinician, ClinicianDetails, Draft, DraftTap, Stay, Stoma, TakeOver
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.refusals import refuse
from teaching.record.session_checks import BY_AN_ASSISTANT
from teaching.record.sessions import grade_of
from teaching.record.writing import Superseded, done, writing
from teaching.rules.vocabulary import PROCEDURES

CHANGED = "Not saved: another device changed this meanwhile."
CLOSED = "This session is already signed or dropped. Begin anew."
OTHERS = "This session was begun by somebody else. Each signs only what they saw."
PUT_AWAY = "put-away"  # the last tap of a draft: its value is why, its user and time who put it away and when
LONGEST = 300


class TapConflict(Superseded):
    """The field was changed since, or the session changed hands (HTTP 409). `there` is the tap that stands.

    `ours`: it is still one's own session, so tapping again, now on top of that tap, keeps one's own.
    """

    def __init__(self, sentence: str, there: DraftTap | None, *, ours: bool) -> None:
        super().__init__(sentence)
        self.there, self.ours = there, ours


def begin_draft(
    *, actor: Actor, stay: Stay, stoma: Stoma, procedure: str, begun_at: datetime | None = None
) -> Draft:
    """A session begun; its `event_uid` becomes the event's at signing. `begun_at` None: now."""
    owner = somebody(actor)
    faults = Faults()
    faults.word("procedure", procedure, PROCEDURES)
    faults.moment("begun_at", begun_at, timezone.now(), needed=False)
    if stoma.stay_id != stay.pk:
        faults.add("stoma", "This stoma belongs to somebody else. Choose one of this person's.")
    faults.stop()
    with writing(stay) as locked:
        begun = begun_at or timezone.now()
        made = Draft.objects.create(stay=stay, stoma=stoma, procedure=procedure, owner=owner, begun_at=begun)
        done(actor, "begin_draft", made, stay=stay, unit=locked.unit if locked else "")
    return made


def tap(*, actor: Actor, draft: Draft, client_id: UUID, field: str, value: Any, base: UUID | None = None) -> DraftTap:
    """One tap: one insert. The same client id again is the same tap, so a tap sent twice is stored once.

    `base` is the client id of the tap it was made on top of. Where another one stands in that field, raises
    TapConflict; two taps in one instant wait for each other, and the second is the one refused.
    """
    if actor.user is None:
        refuse("", "Nobody is signed in; sign in and try again.")
    with transaction.atomic():
        held = Draft.objects.select_for_update().get(pk=draft.pk)
        same = DraftTap.objects.filter(draft=held, client_id=client_id).first()
        if same:
            return same
        if held.owner_id != somebody(actor).pk:
            _refuse_other(held, somebody(actor), field)
        if held.state != "open":
            refuse("", closed(held))
        there = newest_taps(held, held.owner).get(field)
        if there and there.client_id != base and there.value != value:
            raise TapConflict(CHANGED, there, ours=True)
        return DraftTap.objects.create(
            draft=held, client_id=client_id, user=actor.user, field=field, value=value, base=base
        )


def _refuse_other(draft: Draft, tapper: Clinician, field: str) -> None:
    """Somebody else's: whoever had it before is told who has it now, and what stands there."""
    if not TakeOver.objects.filter(draft=draft, left_by=tapper).exists():
        refuse("", OTHERS)
    raise TapConflict(
        f"Not saved: {_name(draft.owner_id)} has taken this session over. Sign here what you saw before that.",
        newest_taps(draft, draft.owner).get(field),
        ours=False,
    )


def closed(draft: Draft) -> str:
    """Why nothing more is tapped into it or signed of it, and what to do instead."""
    if not put_away(draft):
        return CLOSED
    return f"{_name(draft.owner_id)} has put this session away. It happened after all? Tap or sign again, as a new one."


def put_away(draft: Draft) -> bool:
    """Whether its owner put it away; else it was dropped for another stoma, or stands."""
    return draft.state == "dropped" and draft.taps.filter(field=PUT_AWAY, user__clinician=draft.owner_id).exists()


def _name(clinician: int) -> str:
    details = ClinicianDetails.objects.filter(clinician=clinician).order_by("-number")
    return details.values_list("name", flat=True)[0]


def newest_taps(draft: Draft, whose: Clinician) -> dict[str, DraftTap]:
    """{field: the newest tap of this nurse in it}. What another nurse tapped is theirs to sign."""
    own = draft.taps.filter(user__clinician=whose).order_by("at", "pk")
    return {each.field: each for each in own}


def draft_with(actor: Actor, stay: Stay, client_ids: Sequence[UUID]) -> Draft | None:
    """The draft that holds one of these taps already: a sending whose answer was lost is not begun twice."""
    kept = DraftTap.objects.filter(draft__stay=stay, user=actor.user, client_id__in=client_ids)
    found = kept.select_related("draft__stoma", "draft__owner").first()
    return found.draft if found else None


def take_over_draft(*, actor: Actor, draft: Draft) -> Draft:
    """Go on with a session that another nurse began. What they tapped stays theirs: it is shown, never signed here."""
    taker, grade = somebody(actor), grade_of(actor)
    if grade == "other" or (grade == "assistant" and draft.procedure not in BY_AN_ASSISTANT):
        refuse("", "This session is for a nurse to go on with. Ask one.")
    with writing(draft.stay) as locked:
        held = Draft.objects.select_for_update().get(pk=draft.pk)
        if held.state != "open":
            refuse("", CLOSED)
        if held.owner_id == taker.pk:
            refuse("", "This session is yours already. Go on with it.")
        TakeOver.objects.create(draft=held, left_by=held.owner, taken_by=taker)
        held.owner = taker
        held.save(update_fields=["owner"])
        done(actor, "take_over_draft", held, stay=held.stay, unit=locked.unit if locked else "")
    return held


def drop_draft(*, actor: Actor, draft: Draft) -> Draft:
    """Begun for another stoma than the one tapped in the end: it is kept as dropped and no longer shown."""
    if draft.owner_id != somebody(actor).pk:
        refuse("", "This session was begun by somebody else; only they drop it.")
    with writing(draft.stay) as locked:
        if not Draft.objects.filter(pk=draft.pk, state="open").update(state="dropped"):
            refuse("", "This session is already signed or dropped.")
        draft.state = "dropped"
        done(actor, "drop_draft", draft, stay=draft.stay, unit=locked.unit if locked else "")
    return draft


def put_away_draft(*, actor: Actor, draft: Draft, why: str = "") -> Draft:
    """Begun by mistake: it is no longer shown among what is begun, and all that was tapped stays readable.

    Whoever has it puts it away. Whoever had it before a take-over puts away their own part alone, and what
    another nurse tapped or signed stays theirs. A caution raised from it runs on. Raises Refused.
    """
    faults = Faults()
    faults.text("why", why, LONGEST)
    faults.stop()
    me, user = somebody(actor), actor.user
    if user is None:
        refuse("", "Nobody is signed in; sign in and try again.")
    with writing(draft.stay) as locked:
        held = Draft.objects.select_for_update().get(pk=draft.pk)
        own = held.owner_id == me.pk
        if not own and not TakeOver.objects.filter(draft=held, left_by=me).exists():
            refuse("", f"{_name(held.owner_id)} has this session. Take it over first, then put it away.")
        if own and held.state != "open":
            refuse("", "This session is already signed or put away.")
        if not own and Account.objects.filter(event__uid=held.event_uid, rater=me).exists():
            refuse("", "You have signed your part of this already. Correct that entry, or mark it as entered in error.")
        if not own and held.taps.filter(field=PUT_AWAY, user=user).exists():
            refuse("", "You have put your part of this away already.")
        DraftTap.objects.create(draft=held, client_id=uuid4(), user=user, field=PUT_AWAY, value=why.strip())
        if own:
            held.state = "dropped"
            held.save(update_fields=["state"])
        done(actor, "put_away_draft", held, stay=held.stay, unit=locked.unit if locked else "")
    return held
