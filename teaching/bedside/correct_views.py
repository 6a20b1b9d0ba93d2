"""What was signed, told anew by whoever wrote it; and the same event rated by a second nurse, alone."""

from dataclasses import replace
from datetime import timedelta

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import KEY, answer_form, form_key
from teaching.access.fresh_proof import ask_proof
from teaching.access.guards import guard
from teaching.bedside.again import again, without
from teaching.bedside.asker import Asker
from teaching.bedside.care_again import has_form
from teaching.bedside.caution_raising import raise_for_wear, say
from teaching.bedside.recorder_form import RecorderForm
from teaching.bedside.recorder_page import RecorderPage
from teaching.bedside.recorders import ratable_beside, recorder_of
from teaching.bedside.session_forms import text
from teaching.bedside.taps import raise_seen
from teaching.bedside.times import exactly
from teaching.record import beside, corrections
from teaching.record.another_account import sheet_of
from teaching.record.entries import SessionEntry
from teaching.record.places import policy_for
from teaching.rules.huddle import when

MINUTE = timedelta(minutes=1)


@guard("correct_account")
def correct_account(request, account):
    """Asks by the checklist and the kit of then; what was signed first stays readable."""
    event, now = account.event, timezone.now()
    if not has_form(event) or account.kind in ("addendum", "retraction"):
        raise Http404
    if account.rater_id != request.actor.clinician.pk:
        raise PermissionDenied
    chart, policy = without(sheet_of(event).chart, str(event.uid)), policy_for(request.unit, now)
    told = again(account, request.POST or None, chart, policy, now, Asker(request))
    form = told.form
    form.fields["reason"] = text("Why it is corrected", "Write in a few words what was wrong.")
    ask_proof(request, form)

    def store(form):
        entry, reason = _as_it_was(told.entry(), account), form.cleaned_data["reason"]
        corrections.correct_account(actor=request.actor, account=account, entry=entry, reason=reason)
        messages.success(request, "Signed: the corrected version counts from now on. The first stays readable.")
        _raise(request, entry, event, form, policy, now)
        return reverse("session", args=[event.uid])

    return _answer(request, form, f"teaching/bedside/{told.template}", store, told.page, account)


@guard("cosign")
def rate_beside(request, account):
    """What the first nurse said is not shown: two ratings agree only where each was made alone."""
    event, now = account.event, timezone.now()
    if not ratable_beside(event):
        raise Http404
    stay, policy = event.stay, policy_for(request.unit, now)
    chart = without(sheet_of(event).chart, str(event.uid))
    form = RecorderForm(
        request.POST or None, initial={"began_at": event.opened_at}, recorder=recorder_of(event.procedure), stay=stay,
        chart=chart, policy=policy, now=now, at=event.opened_at,
    )  # fmt: skip

    def store(form):
        entry = form.entry(role="paired")
        entry = replace(entry, began_at=exactly(entry.began_at, event.opened_at))
        beside.rate_beside(actor=request.actor, event=event, entry=entry)
        messages.success(request, "Signed: your rating stands beside the first.")
        _raise(request, entry, event, form, policy, now)
        return reverse("session", args=[event.uid])

    page = RecorderPage(stay, chart, form, now, Asker(request))
    page.happened = f"as the first nurse signed, {when(event.opened_at, chart.ward, now)}"
    page.taps, page.title, page.signature = "", "Rate this beside, alone", "Sign: I saw this too, and rated it alone"
    return _answer(request, form, "teaching/bedside/correct.html", store, page, account)


def _answer(request, form, template, store, page, account):
    """Enter in a field of the recorder signs nothing: the form comes back as it was filled in."""
    context = {"page": page, "stay": account.stay, "account": account}
    if "saw" not in request.POST:
        return answer_form(request, form, template, store, context)
    form.is_valid()
    form.keep_only_errors_of()
    return render(request, template, context | {"form": form, KEY: form_key(request)})


def _as_it_was(entry, account):
    """Times that were left as they stood keep their seconds."""
    if not isinstance(entry, SessionEntry):
        return replace(entry, at=exactly(entry.at, account.began_at))
    began, ended = exactly(entry.began_at, account.began_at), entry.ended_at
    if ended and account.ended_at and began == account.began_at:
        length, before = ended - entry.began_at, account.ended_at - account.began_at
        unchanged = round(before / MINUTE) * MINUTE == length
        ended = account.ended_at if unchanged else began + length
    return replace(entry, began_at=began, ended_at=ended)


def _raise(request, entry, event, form, policy, now):
    """A worrying thing that only the new version says is a caution at once; none is taken back by a correction."""
    raised = raise_seen(request.actor, event.stay, event.stoma, event.uid, form.cleaned_data, policy)
    if getattr(entry, "finding", None) and entry.finding.wear_end:
        raised += raise_for_wear(request.actor, event.stay, event.stoma, event.uid, policy, now)
    for caution in raised:
        messages.warning(request, say(caution))
