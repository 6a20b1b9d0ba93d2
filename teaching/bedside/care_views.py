"""Care given by a nurse, and a leak: nothing is rated. Leaks close together raise a caution at once."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.care_form import CareForm
from teaching.bedside.care_page import CarePage
from teaching.bedside.caution_raising import raise_for_wear, say
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.record.sessions import record_care


@guard("log_care")
def care(request, stay):
    now = timezone.now()
    chart = chart_for(stay)
    form = CareForm(request.POST or None, stay=stay, chart=chart, now=now)
    page = CarePage(stay, chart, now, Asker(request))

    def store(form):
        entry = form.entry()
        account = record_care(actor=request.actor, entry=entry)
        messages.success(request, f"Signed {page.clock}.")
        policy = policy_for(request.unit, now)
        for caution in raise_for_wear(request.actor, stay, entry.stoma, account.event.uid, policy, now):
            messages.warning(request, say(caution))
        return reverse("person", args=[stay.uid])

    return answer_form(request, form, "teaching/bedside/care.html", store, {"page": page, "stay": stay})
