"""Output: the 24-hour total as the fluid chart says it, and nothing out since when, as asked."""

from django.contrib import messages
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.caution_raising import raise_for_total, raise_once, say
from teaching.bedside.note_page import NOTE, NotePage
from teaching.bedside.output_form import NOTHING, SILENT_SIGNS, NothingSinceForm, OutputTotalForm
from teaching.bedside.signs import asked_signs
from teaching.record.charts import chart_for
from teaching.record.output import note_nothing_since
from teaching.record.places import policy_for
from teaching.record.sessions import record_output_total

NO_TOTAL = "As the chart adds it up. No total means not known; it is never added up from sessions."


@guard("log_care")
def output_total(request, stay):
    now, asker = timezone.now(), Asker(request)
    chart, policy = _chart(stay), policy_for(request.unit, now)
    form = OutputTotalForm(request.POST or None, stay=stay, stomas=chart.stomas, zone=chart.ward.zone)
    page = NotePage(
        stay, chart, now, asker, title="24-hour output", asks="From the fluid chart", button="Store this total",
        says=(NO_TOTAL,), links=((reverse("nothing-since", args=[stay.uid]), "Nothing has come out"),),
    )  # fmt: skip

    def store(form):
        said, stoma = form.cleaned_data, form.stoma_row
        record_output_total(actor=request.actor, stoma=stoma, until_at=said["until_at"], ml=said["ml"])
        raised = raise_for_total(request.actor, stay, stoma, said["until_at"], said["ml"], policy)
        return _stored(request, stay, f"Stored: {said['ml']} mL in 24 hours.", raised)

    return answer_form(request, form, NOTE, store, {"page": page, "stay": stay})


@guard("log_care")
def nothing_since(request, stay):
    now, asker = timezone.now(), Asker(request)
    chart, policy = _chart(stay), policy_for(request.unit, now)
    listed = [pair for pairs in asked_signs(policy, chart, now).values() for pair in pairs]
    signs = [(code, words) for code, words in listed if code in SILENT_SIGNS]
    form = NothingSinceForm(request.POST or None, stay=stay, stomas=chart.stomas, zone=chart.ward.zone, signs=signs)
    page = NotePage(
        stay, chart, now, asker, title="Nothing out?", asks="Asked, or seen", button="Store this answer",
        links=((reverse("output-total", args=[stay.uid]), "24-hour output from the fluid chart"),),
    )  # fmt: skip

    def store(form):
        said, stoma = form.cleaned_data, form.stoma_row
        since = said["since_at"] if said["has"] == NOTHING else None
        note_nothing_since(actor=request.actor, stoma=stoma, since_at=since)
        raised = raise_once(request.actor, stay, stoma, said.get("signs", ()), now)
        return _stored(request, stay, "Stored: what was asked about output.", raised)

    return answer_form(request, form, NOTE, store, {"page": page, "stay": stay})


def _chart(stay):
    chart = chart_for(stay)
    if not chart.stomas:
        raise Http404("No stoma is written down yet.")
    return chart


def _stored(request, stay, sentence, raised):
    messages.success(request, sentence)
    for caution in raised:
        messages.warning(request, say(caution))
    return reverse("person", args=[stay.uid])
