"""Care given by a nurse, and a leak: nothing is rated. Leaks close together raise a caution at once."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.care_form import CareForm
from teaching.bedside.care_page import CarePage
from teaching.record.cautions import raise_caution
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.record.sessions import record_care
from teaching.rules.cautions import running, signs_of_wear


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
        for caution in _raise_for_wear(request, stay, entry, account.event.uid, now):
            messages.warning(request, f"Stored a caution: {caution.words}. Tell somebody and write whom.")
        return reverse("person", args=[stay.uid])

    return answer_form(request, form, "teaching/bedside/care.html", store, {"page": page, "stay": stay})


def _raise_for_wear(request, stay, entry, event_uid, now):
    """What the wear of this stoma's pouches shows now, unless the same caution is running already."""
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    key = str(entry.stoma.uid)
    already = {caution.sign for caution in running(chart, now) if caution.stoma == key}
    return [
        raise_caution(
            actor=request.actor, stay=stay, sign=sign, at=now, stoma=entry.stoma, event_uid=event_uid
        )
        for sign in signs_of_wear(chart, key, policy, now)
        if sign not in already
    ]  # fmt: skip
