"""Opening a stay: a short row of forms, each of which saves and shows the next thing to do."""

from django.http import Http404
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.record import learners, stays, stomas
from teaching.record.places import settings_of
from teaching.rules.spoken import LANGUAGES
from teaching.rules.vocabulary import CONSENT_WHOSE
from teaching.setup.staff_forms import ConfirmForm
from teaching.setup.stay_forms import HelperForm, KitForm, LanguageForm, StayForm, StomaForm
from teaching.setup.stay_page import StayPage

FORM = "teaching/setup/stay_form.html"


def _address(stay) -> str:
    return reverse("stay-setup", kwargs={"stay": stay.uid})


def _page(stay, title: str, button: str) -> dict:
    return {"stay": stay, "now": stay.now, "title": title, "button": button, "back": _address(stay)}


@guard("open_stay")
def open_stay(request, unit):
    def store(form):
        return _address(stays.open_stay(actor=request.actor, entry=form.entry()))

    form = StayForm(request.POST or None, unit=unit, leave_hour=settings_of(unit).leave_hour)
    page = {"unit": unit, "title": "Open a stay", "button": "Open the stay", "back": reverse("setup")}
    return answer_form(request, form, FORM, store, page)


@guard("open_stay")
@require_safe
def stay_setup(request, stay):
    return render(request, "teaching/setup/stay_setup.html", {"page": StayPage(stay), "now": stay.now})


@guard("open_stay")
def taught_in(request, stay):
    def store(form):
        stays.teach_in(actor=request.actor, stay=stay, language=form.cleaned_data["language"])
        return _address(stay)

    known = stays.language_of(stay)
    form = LanguageForm(request.POST or None, initial={"language": known if known in LANGUAGES else "other"})
    page = _page(stay, "The language to teach in", "Store the language")
    page["says"] = "In another than English, explained is only what a trained interpreter heard said back."
    return answer_form(request, form, FORM, store, page)


@guard("open_stay")
def add_stoma(request, stay):
    def store(form):
        stomas.add_stoma(actor=request.actor, stay=stay, entry=form.entry())
        return _address(stay)

    form = StomaForm(request.POST or None, zone=stay.zone)
    return answer_form(request, form, FORM, store, _page(stay, "The stoma", "Store the stoma"))


@guard("open_stay")
def fit_kit(request, stoma):
    def store(form):
        stomas.fit_kit(actor=request.actor, stoma=stoma, entry=form.entry())
        return _address(stoma.stay)

    form = KitForm(request.POST or None, zone=stoma.stay.zone)
    page = _page(stoma.stay, f"What the {stoma.label} stoma wears", "Store what it wears")
    return answer_form(request, form, FORM, store, page)


@guard("open_stay")
def add_helper(request, stay):
    def store(form):
        learners.add_learner(actor=request.actor, stay=stay, entry=form.entry())
        return _address(stay)

    form = HelperForm(request.POST or None)
    return answer_form(request, form, FORM, store, _page(stay, "A helper who learns too", "Store the helper"))


@guard("open_stay")
def record_consent(request, learner, whose, answer):
    if whose not in CONSENT_WHOSE or answer not in ("yes", "no"):
        raise Http404

    def store(form):
        learners.record_consent(
            actor=request.actor, learner=learner, whose=whose, yes=answer == "yes", at=timezone.now()
        )
        return _address(learner.stay)

    who = CONSENT_WHOSE[whose].capitalize()
    title = f"{who} says yes" if answer == "yes" else f"{who} takes the yes back"
    page = _page(learner.stay, title, f"{title}, now")
    page["says"] = (
        f"This is about {learner.name} learning to help. Both must say yes, and each may take it back."
    )
    return answer_form(request, ConfirmForm(request.POST or None), FORM, store, page)
