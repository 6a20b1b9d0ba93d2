"""A signed session told anew by whoever wrote it; and the same event rated by a second nurse, alone."""

from dataclasses import replace

from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.fresh_proof import ask_proof
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.recorder_form import RecorderForm
from teaching.bedside.recorder_initial import form_of
from teaching.bedside.recorder_page import RecorderPage
from teaching.bedside.recorders import recorder_of
from teaching.bedside.session_forms import text
from teaching.record import beside, corrections
from teaching.record.charts import chart_for
from teaching.record.places import policy_for

TEMPLATE = "teaching/bedside/correct.html"


def _page(request, stay, chart, form, now, title, sign):
    page = RecorderPage(stay, chart, form, now, Asker(request))
    page.taps, page.title, page.signature = "", title, sign
    return page


@guard("correct_account")
def correct_account(request, account):
    if account.event.kind != "teaching":
        raise Http404
    if account.rater_id != request.actor.clinician.pk:
        raise PermissionDenied
    now, stay = timezone.now(), account.stay
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    form = form_of(account, request.POST or None, chart=chart, policy=policy, now=now)
    form.fields["reason"] = text("Why it is corrected", "Write in a few words what was wrong.")
    ask_proof(request, form)

    def store(form):
        entry = form.entry(role=account.role)
        reason = form.cleaned_data["reason"]
        corrections.correct_account(actor=request.actor, account=account, entry=entry, reason=reason)
        messages.success(request, "Signed: the corrected version counts from now on. The first stays readable.")
        return reverse("session", args=[account.event.uid])

    page = _page(request, stay, chart, form, now, "Correct what was signed", "Sign the corrected version")
    return answer_form(request, form, TEMPLATE, store, {"page": page, "stay": stay, "account": account})


@guard("cosign")
def rate_beside(request, account):
    """What the first nurse said is not shown: two ratings agree only where each was made alone."""
    event, now = account.event, timezone.now()
    if event.kind != "teaching":
        raise Http404
    stay, policy = event.stay, policy_for(request.unit, now)
    chart = _without(chart_for(stay), str(event.uid))
    form = RecorderForm(
        request.POST or None, initial={"began_at": event.opened_at}, recorder=recorder_of(event.procedure), stay=stay,
        chart=chart, policy=policy, now=now, at=event.opened_at,
    )  # fmt: skip

    def store(form):
        beside.rate_beside(actor=request.actor, event=event, entry=form.entry(role="paired"))
        messages.success(request, "Signed: your rating stands beside the first.")
        return reverse("session", args=[account.event.uid])

    page = _page(request, stay, chart, form, now, "Rate this beside, alone", "Sign: I saw this too, and rated it alone")
    return answer_form(request, form, TEMPLATE, store, {"page": page, "stay": stay, "account": account})


def _without(chart, event: str):
    return replace(chart, ratings=tuple(one for one in chart.ratings if one.event != event))
