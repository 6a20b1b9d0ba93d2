"""Work in hand at the bedside: the draft of a session, its taps, and cautions stored at the tap."""

import json
import uuid

from django.core.exceptions import BadRequest
from django.utils import timezone

from teaching.bedside.seen_fields import finding_in
from teaching.bedside.signs import signs_tapped
from teaching.record.cautions import raise_caution
from teaching.record.drafts import begin_draft, drop_draft, tap
from teaching.rules.cautions import signs_seen
from teaching.rules.facts import Finding
from teaching.rules.policy import Policy

CHANGED = "Not saved: this was changed on another device meanwhile. Open this session again to see both, or sign here."
WORRYING = ("finding.", "skin.", "signs.")


def own_draft(request, stay):
    """The open draft named by the form or the address, if it is this nurse's own on this stay."""
    uid = uid_in(request.POST.get("draft") or request.GET.get("draft", ""))
    own = stay.drafts.filter(owner=request.actor.clinician, state="open").select_related("stoma")
    return own.filter(uid=uid).first() if uid else None


def uid_in(text: str) -> uuid.UUID | None:
    try:
        return uuid.UUID(text)
    except ValueError:
        return None


def said_so_far(draft) -> dict:
    """{field: the newest value tapped}, to go on with a session that was begun."""
    return dict(draft.taps.order_by("at", "pk").values_list("field", "value")) if draft else {}


def draft_for(actor, stay, stoma, procedure, draft=None):
    """The draft in hand when it is for this stoma, else a new one in its place."""
    if draft and (draft.stoma_id, draft.procedure) == (stoma.pk, procedure):
        return draft
    if draft:
        drop_draft(actor=actor, draft=draft)
    return begin_draft(actor=actor, stay=stay, stoma=stoma, procedure=procedure)


def keep(request, draft, form, policy: Policy) -> tuple[dict, int]:
    """Store the tap of one field of the form, and a caution at once where its value is worrying."""
    field, value = request.POST.get("field", ""), _value(request)
    client_id = uid_in(request.POST.get("client_id", ""))
    if field not in form.fields or client_id is None:
        raise BadRequest("The tap names no field of this form, or comes without its own id.")
    base = uid_in(request.POST.get("base", ""))
    there = draft.taps.filter(field=field).order_by("at", "pk").last()
    if there and there.client_id not in (base, client_id):
        return {"draft": str(draft.uid), "sentence": CHANGED, "there": there.value, "yours": value}, 409
    tap(actor=request.actor, draft=draft, client_id=client_id, field=field, value=value, base=base)
    raised = []
    if field.startswith(WORRYING):
        raised = raise_seen(request.actor, draft.stay, draft.stoma, draft.event_uid, {field: value}, policy)
    return {"draft": str(draft.uid), "cautions": [said(caution) for caution in raised]}, 200


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
