"""Sessions begun and not signed: every tap is kept, none of it counts. Only whoever began one signs it."""

from typing import Any
from uuid import UUID

from teaching.models import Draft, DraftTap, Stay, Stoma
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.refusals import refuse
from teaching.record.writing import done, writing
from teaching.rules.vocabulary import PROCEDURES


def begin_draft(*, actor: Actor, stay: Stay, stoma: Stoma, procedure: str) -> Draft:
    """A session begun; its `event_uid` becomes the event's at signing."""
    owner = somebody(actor)
    faults = Faults()
    faults.word("procedure", procedure, PROCEDURES)
    if stoma.stay_id != stay.pk:
        faults.add("stoma", "This stoma belongs to somebody else. Choose one of this person's.")
    faults.stop()
    with writing(stay) as locked:
        made = Draft.objects.create(stay=stay, stoma=stoma, procedure=procedure, owner=owner)
        done(actor, "begin_draft", made, stay=stay, unit=locked.unit if locked else "")
    return made


def tap(*, actor: Actor, draft: Draft, client_id: UUID, field: str, value: Any, base: UUID | None = None) -> DraftTap:
    """One tap: one insert. The same client id again is the same tap, so a tap sent twice is stored once."""
    if actor.user is None:
        refuse("", "Nobody is signed in; sign in and try again.")
    if draft.state != "open":
        refuse("", "This session is already signed or dropped. Begin anew.")
    if draft.owner_id != somebody(actor).pk:
        refuse("", "This session was begun by somebody else. Each signs only what they saw.")
    made, _ = DraftTap.objects.get_or_create(
        draft=draft,
        client_id=client_id,
        defaults={"user": actor.user, "field": field, "value": value, "base": base},
    )
    return made


def drop_draft(*, actor: Actor, draft: Draft) -> Draft:
    """Begun for nothing: it is kept as dropped and no longer shown."""
    if draft.owner_id != somebody(actor).pk:
        refuse("", "This session was begun by somebody else; only they drop it.")
    with writing(draft.stay) as locked:
        if not Draft.objects.filter(pk=draft.pk, state="open").update(state="dropped"):
            refuse("", "This session is already signed or dropped.")
        draft.state = "dropped"
        done(actor, "drop_draft", draft, stay=draft.stay, unit=locked.unit if locked else "")
    return draft
