"""Taps that a device kept while the network was gone, sent once under the user they were made by."""

from django.http import JsonResponse
from django.utils import timezone
from django.views.decorators.http import require_POST

from teaching.access.guards import guard
from teaching.bedside.kept_taps import begun, belongs_to, taps_in, version_of
from teaching.bedside.recorder_form import RecorderForm
from teaching.bedside.taps import draft_for, keep_tap, named_draft
from teaching.record.charts import chart_for
from teaching.record.drafts import draft_with, put_away
from teaching.record.places import policy_for

NOT_YOURS = "What this device held was not yours, or over 12 hours old: it was thrown away. Write it as a late entry."
CLOSED = "This session was {how} meanwhile. What this device had kept stands in a new one."
OTHER_ROWS = "The checklist has changed since. Look the session over before you sign it."


@guard("log_care")
@require_POST
def kept_taps(request):
    """Answers {draft, at, last, sentences, cautions}; 422 where they are another user's, or too old."""
    now, found = timezone.now(), belongs_to(request.POST.get("token", ""), request.user)
    if found is None:
        return JsonResponse({"sentences": [NOT_YOURS]}, status=422)
    (stay, recorder), taps = found, taps_in(request.POST.get("taps", ""))
    chart, policy = chart_for(stay), policy_for(stay.now.unit, now)
    draft = named_draft(request, stay) or draft_with(request.actor, stay, [one.client_id for one in taps])
    answer = {"at": f"{chart.ward.local(now):%H:%M}", "last": {}, "sentences": [], "cautions": []}
    if taps and request.POST.get("checklist") != version_of(chart):
        answer["sentences"].append(OTHER_ROWS)
    for one in taps:
        form = RecorderForm({"which": one.which}, recorder=recorder, stay=stay, chart=chart, policy=policy, now=now)
        form.is_valid()
        if not form.chosen or one.field not in form.fields:
            answer["sentences"].append(f"Not saved: {one.field} is no answer here any more.")
            continue
        if draft and draft.state == "dropped" and not draft.taps.filter(client_id=one.client_id).exists():
            answer["sentences"].append(CLOSED.format(how="put away" if put_away(draft) else "dropped"))
            draft = None
        since = begun(taps, request.POST.get("clock", ""), now)
        draft = draft_for(request.actor, stay, form.stoma(), form.chosen.procedure, draft, begun_at=since)
        told, status = keep_tap(
            request.actor, draft, form, policy, one.field, one.value, one.client_id, one.base
        )  # fmt: skip
        answer["draft"] = told["draft"]
        answer["cautions"] += told.get("cautions", [])
        if status == 200:
            answer["last"][one.field] = str(one.client_id)
        else:
            answer["sentences"].append(told["sentence"])
            answer["last"][one.field] = told.get("base", "")
    return JsonResponse(answer)
