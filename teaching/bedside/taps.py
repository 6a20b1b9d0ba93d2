"""Work in hand at the bedside: the draft of a session, its taps, its signing, and cautions stored at the tap."""

import json
import uuid

from django.core.exceptions import BadRequest
from django.utils import timezone

from teaching.bedside.seen_fields import finding_in
from teaching.bedside.signs import signs_tapped
from teaching.record.beside import record_part
from teaching.record.cautions import raise_caution
from teaching.record.drafts import TapConflict, begin_draft, closed, drop_draft, newest_taps, tap
from teaching.record.entries import CareEntry
from teaching.record.refusals import Refused, refuse
from teaching.record.sessions import record_care, record_session
from teaching.rules.cautions import signs_seen
from teaching.rules.facts import Finding
from teaching.rules.policy import Policy

WORRYING = ("finding.", "skin.", "signs.")


def own_draft(request, stay):
    """The draft named by the form or the address: this nurse's own, or one they began and another took over.

    A form sent for a draft that was signed or taken over meanwhile still finds it, so that its verb says so.
    """
    draft = named_draft(request, stay)
    if draft is None:
        return None
    me = request.actor.clinician
    own = draft.state == "open" and draft.owner_id == me.pk
    left = draft.owner_id != me.pk and draft.take_overs.filter(left_by=me).exists()
    if not own and not left and request.method != "POST":
        return None
    draft.whose = me
    return draft


def put_away_meanwhile(draft) -> bool:
    """One's own, dropped on another device since this page was opened."""
    return bool(draft) and draft.state == "dropped" and draft.owner_id == draft.whose.pk


def named_draft(request, stay):
    uid = uid_in(request.POST.get("draft") or request.GET.get("draft", ""))
    return stay.drafts.filter(uid=uid).select_related("stoma", "owner").first() if uid else None


def uid_in(text: str) -> uuid.UUID | None:
    try:
        return uuid.UUID(text)
    except ValueError:
        return None


def said_so_far(draft) -> dict:
    """{field: the newest value that this nurse tapped}; what another nurse tapped is theirs to sign."""
    if not draft:
        return {}
    own = newest_taps(draft, getattr(draft, "whose", draft.owner))
    draft.bases = {field: str(each.client_id) for field, each in own.items()}  # what this page's next taps stand on
    return {field: each.value for field, each in own.items()}


def draft_for(actor, stay, stoma, procedure, draft=None, begun_at=None):
    """The draft in hand when it is for this stoma, else a new one in its place, begun then (None: now)."""
    if draft and (draft.stoma_id, draft.procedure) == (stoma.pk, procedure):
        return draft
    if draft and draft.state == "open" and draft.owner_id == actor.clinician.pk:
        drop_draft(actor=actor, draft=draft)
    return begin_draft(actor=actor, stay=stay, stoma=stoma, procedure=procedure, begun_at=begun_at)


def sign(actor, entry, draft=None):
    """Store what was recorded. Of a lesson that changed hands each nurse signs their own part of one event."""
    if put_away_meanwhile(draft):
        refuse("", closed(draft))
    if draft and draft.take_overs.exists():
        return record_part(actor=actor, draft=draft, entry=entry)
    record = record_care if isinstance(entry, CareEntry) else record_session
    return record(actor=actor, entry=entry)


def keep(request, draft, form, policy: Policy) -> tuple[dict, int]:
    """Store the tap of one field of the form, and a caution at once where its value is worrying.

    409 where the field was changed meanwhile: both values, and the tap to base the next one on; tapping again keeps
    one's own.
    """
    client_id = uid_in(request.POST.get("client_id", ""))
    base = uid_in(request.POST.get("base", ""))
    return keep_tap(request.actor, draft, form, policy, request.POST.get("field", ""), _value(request), client_id, base)


def keep_tap(actor, draft, form, policy: Policy, field, value, client_id, base) -> tuple[dict, int]:
    """The same for one tap that is read already."""
    if field not in form.fields or client_id is None:
        raise BadRequest("The tap names no field of this form, or comes without its own id.")
    answer = {"draft": str(draft.uid)}
    try:
        tap(actor=actor, draft=draft, client_id=client_id, field=field, value=value, base=base)
    except TapConflict as conflict:
        return answer | _both(conflict, form.fields[field], value), 409
    except Refused as refused:
        return answer | {"sentence": f"Not saved: {refused}", "anew": draft.state == "dropped"}, 409
    raised = []
    if field.startswith(WORRYING):
        raised = raise_seen(actor, draft.stay, draft.stoma, draft.event_uid, {field: value}, policy)
    return answer | {"cautions": [said(caution) for caution in raised]}, 200


def _both(conflict: TapConflict, field, yours) -> dict:
    there = conflict.there
    sentence = str(conflict)
    if there:
        sentence += f" It says: {in_words(field, there.value)}. You tapped: {in_words(field, yours)}."
    if conflict.ours:
        sentence += " Tap yours again to keep it."
    return {
        "sentence": sentence, "there": there.value if there else None, "yours": yours,
        "base": str(there.client_id) if there else "",
    }  # fmt: skip


def in_words(field, value) -> str:
    """A tapped value as the form says it."""
    known = {str(code): words for code, words in getattr(field, "choices", ())}
    if isinstance(value, list):
        return ", ".join(str(known.get(str(each), each)) for each in value) or "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(known.get(str(value), value)) or "nothing"


def _value(request):
    try:
        return json.loads(request.POST.get("value", ""))
    except json.JSONDecodeError:
        raise BadRequest("The tap's value is not JSON.") from None


def said(caution) -> dict[str, str]:
    """What the page shows at once."""
    how = "Call now" if caution.list == "call_now" else "Stoma nurse today"
    return {
        "list": caution.list,
        "sentence": f"{how}: {caution.words}. Stored; tell somebody and write whom.",
    }


def raise_seen(actor, stay, stoma, event_uid, cleaned: dict, policy: Policy) -> list:
    """Store a caution, once an event, for every worrying value among these; the rules say which are."""
    now = timezone.now()
    entry, signs = finding_in(cleaned), signs_tapped(cleaned)
    if entry:
        seen = Finding(
            stoma=str(stoma.uid), at=now, event=str(event_uid), colour=entry.colour, wet=entry.wet,
            edge=entry.edge, stands=entry.stands, bleeding=entry.bleeding,
            skin=tuple(sorted(entry.skin.items())),
        )  # fmt: skip
        signs = [*signs_seen(seen, policy), *signs]
    stored = set(stay.cautions.filter(event_uid=event_uid).values_list("sign", flat=True)) if signs else set()
    return [
        raise_caution(actor=actor, stay=stay, sign=sign, at=now, stoma=stoma, event_uid=event_uid)
        for sign in dict.fromkeys(signs)
        if sign not in stored
    ]
