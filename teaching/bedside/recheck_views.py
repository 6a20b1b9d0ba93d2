"""One tap and a signature: still manages all of this alone."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.band import band_of
from teaching.bedside.note_page import NOTE, NotePage
from teaching.bedside.recheck_form import NOTHING, RecheckForm, held_here
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.record.sessions import record_recheck
from teaching.rules.assess import assess

SAYS = "You watched the whole of it and said nothing. It renews the date of what is held; it is no new showing."


@guard("record_recheck")
def recheck(request, stay):
    now, asker = timezone.now(), Asker(request)
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    held = held_here(chart, assess(chart, policy, now), band_of(stay, chart).name)
    form = RecheckForm(request.POST or None, stay=stay, held=held, zone=chart.ward.zone, now=now)
    page = NotePage(
        stay, chart, now, asker, title="Still manages all of this alone", asks="Who and what",
        button="Sign: I watched all of it" if held else "", says=(SAYS if held else NOTHING,),
    )  # fmt: skip

    def store(form):
        record_recheck(actor=request.actor, entry=form.entry())
        messages.success(request, f"Signed {chart.ward.local(now):%H:%M}. What is held is in date again.")
        return reverse("person", args=[stay.uid])

    return answer_form(request, form, NOTE, store, {"page": page, "stay": stay})
