"""What a nurse does on the own page: say how sure one feels, ask to be observed, take it back."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.scope import may
from teaching.education.nurse_forms import AskForm, ConfidenceForm, due_changes
from teaching.education.practice_views import skill_named
from teaching.education.sign_off_forms import SignOffForm
from teaching.record import skills
from teaching.record.figures import board
from teaching.record.places import ward_of

ACT = "teaching/education/act.html"


def _page(unit, title: str, button: str, says: str = "") -> dict:
    back = reverse("own-skills", args=[unit.uid])
    return {"unit": unit, "name": "Your own skills", "title": title, "button": button, "says": says, "back": back}


@guard("see_own_skills")
def rate_oneself(request, unit, skill):
    told = skill_named(skill)
    page = _page(unit, f"How sure you feel: {told.title.lower()}", "Store it")

    def store(form):
        skills.rate_oneself(actor=request.actor, skill=skill, confidence=form.cleaned_data["confidence"])
        messages.success(request, "Stored.")
        return page["back"]

    return answer_form(request, ConfidenceForm(request.POST or None), ACT, store, page)


@guard("see_own_skills")
def ask_to_be_observed(request, unit, skill):
    told, now = skill_named(skill), timezone.now()
    rows = board(unit, now) if may(request.user, "see_shift", unit) else []
    form = AskForm(request.POST or None, changes=due_changes(rows, skill, ward_of(unit), now))
    page = _page(unit, f"Ask to be observed: {told.title.lower()}", "Ask", "Those who hold the skill see that you ask.")

    def store(form):
        skills.ask_to_be_observed(actor=request.actor, unit=unit, skill=skill, **form.said())
        messages.success(request, "You have asked to be observed.")
        return page["back"]

    return answer_form(request, form, ACT, store, page)


@guard("see_own_skills")
def take_back_ask(request, unit, skill):
    told = skill_named(skill)
    page = _page(unit, f"Not now after all: {told.title.lower()}", "Take my asking back")

    def store(form):
        skills.take_back_ask(actor=request.actor, unit=unit, skill=skill)
        messages.success(request, "Taken back.")
        return page["back"]

    return answer_form(request, SignOffForm(request.POST or None), ACT, store, page)
