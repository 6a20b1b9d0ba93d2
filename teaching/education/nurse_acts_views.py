"""What a nurse does on the own page: how sure one feels, asking to be observed; and a holder's answer to an ask."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.scope import may
from teaching.education.nurse_forms import AskForm, ConfidenceForm, changes_to_pair
from teaching.education.practice_views import skill_named
from teaching.education.sign_off_forms import SignOffForm
from teaching.record import skills
from teaching.record.arranged import booked_on
from teaching.record.figures import board
from teaching.record.nurses import nurse as facts_of
from teaching.record.places import ward_of
from teaching.rules.huddle_cover import planned_changes

ACT = "teaching/education/act.html"
NONE_PLANNED = "No change that fits this skill is planned now. The ask stands until one is."


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
    told = skill_named(skill)
    changes = _changes(unit, skill) if may(request.user, "see_shift", unit) else {}
    form = AskForm(request.POST or None, changes=changes)
    page = _page(unit, f"Ask to be observed: {told.title.lower()}", "Ask", "Those who hold the skill see that you ask.")

    def store(form):
        skills.ask_to_be_observed(actor=request.actor, unit=unit, skill=skill, **form.said())
        messages.success(request, "You have asked to be observed.")
        return page["back"]

    return answer_form(request, form, ACT, store, page)


@guard("pair_ask")
def pair_ask(request, unit, nurse, skill):
    told, name, changes = skill_named(skill), facts_of(nurse.pk).name, _changes(unit, skill)
    back = reverse("who-teaches", args=[unit.uid])

    def store(form):
        skills.pair_ask(actor=request.actor, nurse=nurse, unit=unit, skill=skill, **form.said())
        messages.success(request, f"Paired. {name} reads when, and that you chose it.")
        return back

    asks = skills.open_ask(nurse.pk, unit, skill) is not None
    said = f"{name} asks to be observed. You say at which change you observe." if changes else NONE_PLANNED
    says = said if asks else f"{name} does not ask to be observed for this now."
    page = {"unit": unit, "name": name, "title": f"Pair the ask: {told.title.lower()}", "says": says,
            "button": "Pair it with this change", "back": back, "nothing_to_do": not (asks and changes)}  # fmt: skip
    return answer_form(request, AskForm(request.POST or None, changes=changes, any_time=False), ACT, store, page)


def _changes(unit, skill):
    now, ward = timezone.now(), ward_of(unit)
    rows = board(unit, now)
    return changes_to_pair(planned_changes(rows, booked_on(unit), ward, now), rows, skill, ward, now)


@guard("see_own_skills")
def take_back_ask(request, unit, skill):
    told = skill_named(skill)
    page = _page(unit, f"Not now after all: {told.title.lower()}", "Take my asking back")

    def store(form):
        skills.take_back_ask(actor=request.actor, unit=unit, skill=skill)
        messages.success(request, "Taken back.")
        return page["back"]

    return answer_form(request, SignOffForm(request.POST or None), ACT, store, page)
