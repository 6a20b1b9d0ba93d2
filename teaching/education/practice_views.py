"""Recording an observed practice on a tablet beside the nurse, and taking one back."""

from django.contrib import messages
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.scope import may
from teaching.education.practice_form import PracticeForm, TakeBackForm
from teaching.record import practices
from teaching.record.nurses import nurse as facts_of
from teaching.record.places import ward_of
from teaching.record.skills import skills_in_force
from teaching.rules.vocabulary import BONDY


def back_to(request, unit, nurse) -> str:
    """The nurse's page for those who may see it; the others came from who teaches."""
    if may(request.user, "see_skills", unit) and nurse != request.user.clinician:
        return reverse("nurse-skills", args=[unit.uid, nurse.uid])
    return reverse("who-teaches", args=[unit.uid])


def skill_named(code: str):
    """The skill an address names. 404 for what is not one, or is not published."""
    found = next((skill for skill in skills_in_force() if skill.code == code), None)
    if found is None:
        raise Http404
    return found


@guard("observe_practice")
def record_practice(request, unit, nurse, skill):
    told, now, name = skill_named(skill), timezone.now(), facts_of(nurse.pk).name
    form = PracticeForm(request.POST or None, skill=told, zone=ward_of(unit).zone, now=now)
    back = back_to(request, unit, nurse)

    def store(form):
        practices.record_practice(actor=request.actor, nurse=nurse, skill=skill, unit=unit, **form.said())
        messages.success(request, f"Stored: a practice of {name}, {told.title.lower()}.")
        return back

    page = {"unit": unit, "name": name, "skill": told, "levels": list(BONDY.items()), "back": back}
    return answer_form(request, form, "teaching/education/record_practice.html", store, page)


@guard("observe_practice")
def take_back_practice(request, practice):
    nurse, unit = practice.nurse, practice.unit
    back = back_to(request, unit, nurse)

    def store(form):
        practices.take_back_practice(
            actor=request.actor, practice=practice, words=form.cleaned_data["words"]
        )
        messages.success(request, "Taken back. It stays to be read and counts no more.")
        return back

    page = {
        "unit": unit, "name": facts_of(nurse.pk).name, "back": back, "title": "Entered in error",
        "button": "Take this practice back",
        "says": "It stays to be read, and counts no more. A sign-off that rests on it is withdrawn on its own page.",
    }  # fmt: skip
    return answer_form(request, TakeBackForm(request.POST or None), "teaching/education/act.html", store, page)
