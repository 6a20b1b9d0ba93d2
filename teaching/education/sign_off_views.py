"""Signing a nurse off, withdrawing it with a reason, and accepting a certificate from elsewhere by name."""

from django.contrib import messages
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.fresh_proof import ask_proof
from teaching.access.guards import guard
from teaching.education.nurse_page import practice_said
from teaching.education.practice_views import back_to, skill_named
from teaching.education.sign_off_forms import CertificateForm, SignOffForm, WithdrawForm
from teaching.record import sign_offs, staff
from teaching.record.nurses import nurse as facts_of
from teaching.record.places import policy_for, ward_of
from teaching.rules.competence import lasts_until, spoken_day, standing
from teaching.rules.reasons import words

ACT = "teaching/education/act.html"


@guard("observe_practice")
def sign_off(request, unit, nurse, skill):
    told, now, ward = skill_named(skill), timezone.now(), ward_of(unit)
    facts, policy, back = facts_of(nurse.pk), policy_for(None, now), back_to(request, unit, nurse)
    stands = standing(facts, told, policy, now, ward)
    until = spoken_day(lasts_until(now, policy, ward), ward)

    def store(form):
        sign_offs.sign_off(actor=request.actor, nurse=nurse, skill=skill, unit=unit)
        messages.success(request, f"{facts.name} is signed off, {told.title.lower()}, until {until}.")
        return back

    form = ask_proof(request, SignOffForm(request.POST or None))
    page = {
        "unit": unit, "name": facts.name, "back": back, "title": f"Sign off: {told.title.lower()}",
        "seen": [practice_said(each, ward) for each in reversed(stands.counted)],
        "still": [words(reason) for reason in stands.required],
        "says": f"Until {until}. You say: what is required was seen, and I hold this skill myself.",
        "button": f"Sign: {facts.name} may, until {until}",
    }  # fmt: skip
    return answer_form(request, form, ACT, store, page)


@guard("withdraw_sign_off")
def withdraw_sign_off(request, unit, nurse, skill):
    told, name, back = skill_named(skill), facts_of(nurse.pk).name, back_to(request, unit, nurse)

    def store(form):
        reason = form.cleaned_data["reason"]
        staff.withdraw_sign_off(actor=request.actor, nurse=nurse, skill=skill, reason=reason)
        messages.success(request, f"Withdrawn: {told.title.lower()}. What {name} signed until now keeps its weight.")
        return back

    page = {
        "unit": unit, "name": name, "back": back, "title": f"Withdraw the sign-off: {told.title.lower()}",
        "says": "From now on. What was taught and signed until now keeps its weight; the past is not rewritten.",
        "button": "Withdraw it now",
    }  # fmt: skip
    return answer_form(request, WithdrawForm(request.POST or None), ACT, store, page)


@guard("manage_staff")
def accept_certificate(request, unit, nurse, skill):
    told, name, back = skill_named(skill), facts_of(nurse.pk).name, back_to(request, unit, nurse)
    ward = ward_of(unit)

    def store(form):
        staff.accept_certificate(actor=request.actor, nurse=nurse, skill=skill, unit=unit, **form.said(ward))
        messages.success(request, f"Accepted: {name}, {told.title.lower()}.")
        return back

    page = {
        "unit": unit, "name": name, "back": back, "title": f"Accept a certificate: {told.title.lower()}",
        "says": "Signed off elsewhere, and you have seen the paper. Your name stands beside it.",
        "button": "Accept it, in my name",
    }  # fmt: skip
    form = CertificateForm(request.POST or None, longest=policy_for(None, timezone.now()).sign_off_longest)
    return answer_form(request, form, ACT, store, page)
