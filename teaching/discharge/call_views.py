"""Calls after leaving: who is to be rung, and what was heard. What is heard adds nothing to independence."""

from django.contrib import messages
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.scope import may
from teaching.discharge.call_form import CallForm
from teaching.discharge.call_page import CallsPage
from teaching.discharge.form_page import FormPage
from teaching.record.after_home import record_after_home
from teaching.record.calls import calls_owed
from teaching.record.charts import chart_for
from teaching.record.places import ward_of


@guard("record_after_home")
@require_safe
def calls(request, unit):
    now = timezone.now()
    page = CallsPage(unit, ward_of(unit), calls_owed(unit, now), now)
    told = {"page": page, "unit": unit, "may_note": may(request.user, "open_stay", unit)}
    return render(request, "teaching/discharge/calls.html", told)


@guard("record_after_home")
def call(request, stay):
    def store(form):
        record_after_home(actor=request.actor, stay=stay, **form.said())
        messages.success(request, "Stored: what was heard.")
        return reverse("calls", args=[request.unit.uid])

    form = CallForm(request.POST or None, zone=stay.zone, now=timezone.now())
    page = FormPage(stay, chart_for(stay), "A call after leaving", button="Store what was heard")
    told = {"page": page, "stay": stay, "noted": stay.now.state == "left"}
    told["may_note"] = may(request.user, "open_stay", request.unit)
    return answer_form(request, form, "teaching/discharge/call.html", store, told)
