"""Teaching paused, gone on with, stopped: what becomes of the stay, and why."""

from django.contrib import messages
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.note_page import NOTE, NotePage
from teaching.bedside.state_form import DOES, StateForm, steps_from
from teaching.record.charts import chart_for
from teaching.record.stays import note_stay_event

SAYS = {
    "paused": ("Nothing is asked for while it lasts. Care, cautions and what is on record stay.",),
    "resumed": ("What is due is asked for again from now on.",),
    "stopped": ("Nothing is asked for any more and no figures are kept of it. What is on record stays readable.",),
}


@guard("open_stay")
def teaching_state(request, stay, kind):
    if kind not in DOES:
        raise Http404
    now = timezone.now()
    chart = chart_for(stay)
    does, done = DOES[kind]
    form = StateForm(request.POST or None, kind=kind, zone=chart.ward.zone)
    others = tuple(
        (reverse("teaching-state", args=[stay.uid, other]), DOES[other][0])
        for other in steps_from(chart.state)
        if other != kind
    )
    page = NotePage(
        stay, chart, now, Asker(request), title=does, asks="Why and when", button=does, says=SAYS[kind], links=others
    )

    def store(form):
        note_stay_event(actor=request.actor, stay=stay, kind=kind, why=form.reason, at=form.cleaned_data["at"])
        messages.success(request, f"Stored: {done.lower()}.")
        return reverse("person", args=[stay.uid])

    return answer_form(request, form, NOTE, store, {"page": page, "stay": stay})
