"""Recording an emptying: one form in three taps, each tap also kept by the server where scripts are on."""

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import JsonResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.views.decorators.http import require_POST

from teaching.access.forms_in import KEY, answer_form, form_key
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.emptying_form import EmptyingForm
from teaching.bedside.emptying_page import RecorderPage
from teaching.bedside.taps import draft_for, keep, own_draft, raise_seen, said_so_far
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.record.sessions import record_session

TEMPLATE = "teaching/bedside/emptying.html"


@guard("record_emptying")
def emptying(request, stay):
    now, asker, draft = timezone.now(), Asker(request), own_draft(request, stay)
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    form = EmptyingForm(
        request.POST or None, initial=said_so_far(draft), stay=stay, chart=chart, policy=policy, now=now
    )
    if "saw" in request.POST:
        return _keep_what_was_seen(request, stay, form, draft, policy)
    page = RecorderPage(stay, chart, form, now, asker)

    def store(form):
        role = "student" if asker.grade == "student" else "taught"
        account = record_session(
            actor=request.actor, entry=form.entry(role=role, draft=draft, client_skew_s=skew(request, now))
        )
        raise_seen(request.actor, stay, form.stoma(), account.event.uid, form.cleaned_data, policy)
        messages.success(request, f"Signed {page.clock}.")
        return reverse("person", args=[stay.uid])

    return answer_form(request, form, TEMPLATE, store, {"page": page, "stay": stay, "draft": draft})


def _keep_what_was_seen(request, stay, form, draft, policy):
    """Scripts off: a worrying value is stored at once, and the rest of the form comes back as it was."""
    form.is_valid()
    if form.chosen:
        draft = draft_for(request.actor, stay, form.stoma(), form.chosen.procedure, draft)
        raise_seen(request.actor, stay, draft.stoma, draft.event_uid, form.cleaned_data, policy)
    form.keep_only_errors_of("which")
    page = RecorderPage(stay, chart_for(stay), form, form.now, Asker(request))
    context = {"page": page, "stay": stay, "form": form, "draft": draft, KEY: form_key(request)}
    return render(request, TEMPLATE, context, status=200 if form.chosen else 422)


@guard("record_emptying")
@require_POST
def tap_emptying(request, stay):
    """One tap, kept in the nurse's own draft. Answers {draft, at, cautions}; 409 if changed meanwhile."""
    now = timezone.now()
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    form = EmptyingForm({"which": request.POST.get("which", "")}, stay=stay, chart=chart, policy=policy, now=now)
    form.is_valid()
    if not form.chosen:
        raise BadRequest("The tap names no stoma and learner of this person.")
    draft = draft_for(request.actor, stay, form.stoma(), form.chosen.procedure, own_draft(request, stay))
    answer, status = keep(request, draft, form, policy)
    return JsonResponse(answer | {"at": f"{chart.ward.local(now):%H:%M}"}, status=status)


def skew(request, now) -> int | None:
    """Device clock minus ours in seconds, None where it was not sent or makes no sense."""
    try:
        clock = parse_datetime(request.POST.get("clock", ""))
    except ValueError:
        return None
    seconds = (clock - now).total_seconds() if clock and clock.tzinfo else None
    return int(seconds) if seconds is not None and abs(seconds) < 2**31 else None
