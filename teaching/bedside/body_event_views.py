"""What has changed in the body and touches learning: delirium, a rod that is out, an operation, stool that has come."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.body_event_form import BodyEventForm
from teaching.bedside.note_page import NOTE, NotePage
from teaching.record.charts import chart_for
from teaching.record.stomas import note_body_event

SAYS = ("What was shown before some of these is asked for once more; nothing that is on record is lost.",)


@guard("record_emptying")
def body_event(request, stay):
    now = timezone.now()
    chart = chart_for(stay)
    form = BodyEventForm(request.POST or None, chart=chart, now=now)
    page = NotePage(
        stay, chart, now, Asker(request), title="Something has changed", asks="Tap what", button="Store this change",
        says=SAYS,
    )  # fmt: skip

    def store(form):
        code, change, key = form.meant()
        stoma = next((one for one in stay.stomas.all() if str(one.uid) == key), None)
        at = form.cleaned_data["at"] or now
        note_body_event(actor=request.actor, stay=stay, code=code, change=change, at=at, stoma=stoma)
        messages.success(request, f"Stored: {form.said}.")
        return reverse("person", args=[stay.uid])

    return answer_form(request, form, NOTE, store, {"page": page, "stay": stay})
