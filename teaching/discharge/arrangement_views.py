"""Recording what must be in place, a nurse's visit, and a time for teaching: one form each, back to the readiness."""

from django.contrib import messages
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.roster import teachers_of
from teaching.discharge.arrangement_form import ArrangementForm
from teaching.discharge.form_page import FormPage
from teaching.discharge.teaching_form import TeachingForm
from teaching.discharge.visit_form import VisitForm
from teaching.record.arrangements import arrange_visit, book_teaching, make_arrangement
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.rules.arrangements import KINDS, SUPPLIES
from teaching.rules.in_place import newest
from teaching.rules.reasons import words
from teaching.rules.take_along import take_along

TEMPLATE = "teaching/discharge/form.html"


def _answer(request, stay, form, page, act):
    """`act` stores what the form says; then back to where it is read."""

    def store(form):
        act(actor=request.actor, stay=stay, **form.said())
        messages.success(request, f"Stored: {page.title}.")
        return reverse("readiness", args=[stay.uid])

    return answer_form(request, form, TEMPLATE, store, {"page": page, "stay": stay})


@guard("arrange")
def arrange(request, stay, code):
    kind, chart = KINDS.get(code), chart_for(stay)
    if kind is None or not kind.asked:
        raise Http404
    now = timezone.now()
    form = ArrangementForm(request.POST or None, kind=kind, zone=stay.zone, known=newest(chart, code, now))
    counted = take_along(chart, policy_for(request.unit, now), now) if code == SUPPLIES else ()
    page = FormPage(stay, chart, kind.words, kind.why, beside=[words(one) for one in counted])
    return _answer(request, stay, form, page, make_arrangement)


@guard("arrange")
def visit(request, stay, key=None):
    chart = chart_for(stay)
    known = _known(chart.visits, key)
    form = VisitForm(request.POST or None, stay=stay, chart=chart, known=known)

    def act(**told):
        return arrange_visit(**told, key=known.key if known else "")

    return _answer(request, stay, form, FormPage(stay, chart, "A nurse's visit after leaving"), act)


@guard("arrange")
def appointment(request, stay, key=None):
    chart = chart_for(stay)
    known = _known(chart.appointments, key)
    form = TeachingForm(
        request.POST or None, stay=stay, chart=chart, staff=teachers_of(request.unit), person=stay.now.name,
        known=known,
    )  # fmt: skip

    def act(**told):
        return book_teaching(**told, key=known.key if known else "")

    return _answer(request, stay, form, FormPage(stay, chart, "A time for teaching"), act)


def _known(found, key):
    """The one that is to be changed; None where it is a new one."""
    if key is None:
        return None
    for one in found:
        if one.key == str(key):
            return one
    raise Http404
