"""Staff of a unit: the list, one of them, and each act on a page of its own with one button."""

from django.http import Http404
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.roster import member_of, roster
from teaching.record import staff as verbs
from teaching.rules.vocabulary import ROLES
from teaching.setup import staff_acts
from teaching.setup.staff_forms import ConfirmForm, GrantRoleForm, OpenAccountForm, RegisterNurseForm

FORM = "teaching/setup/staff_form.html"


def _member_address(unit, clinician) -> str:
    return reverse("staff-member", kwargs={"unit": unit.uid, "clinician": clinician.uid})


def _shown_once(request, unit, clinician, username, password):
    """The one page that carries a first password; opened again it is gone."""
    page = {"unit": unit, "member": member_of(unit, clinician), "username": username, "password": password}
    return render(request, "teaching/setup/first_password.html", page)


@guard("manage_staff")
@require_safe
def staff(request, unit):
    return render(request, "teaching/setup/staff.html", {"unit": unit, "members": roster(unit)})


@guard("manage_staff")
@require_safe
def staff_member(request, unit, clinician):
    member = member_of(unit, clinician)
    page = {"unit": unit, "member": member, "oneself": clinician == request.actor.clinician}
    return render(request, "teaching/setup/staff_member.html", page)


@guard("manage_staff")
def register_nurse(request, unit):
    made = []

    def store(form):
        made[:] = staff_acts.register_nurse(request.actor, unit, form.cleaned_data)
        return _member_address(unit, made[0])

    form = RegisterNurseForm(request.POST or None)
    page = _page(unit, "Register a colleague", "Register and open a sign-in")
    answer = answer_form(request, form, FORM, store, page)
    return _shown_once(request, unit, made[0], form.cleaned_data["username"], made[1]) if made else answer


@guard("manage_staff")
def grant_role(request, unit, clinician):
    def store(form):
        verbs.grant_role(actor=request.actor, clinician=clinician, role=form.cleaned_data["role"], unit=unit)
        return _member_address(unit, clinician)

    member = member_of(unit, clinician)
    form = GrantRoleForm(request.POST or None, member=member)
    return answer_form(request, form, FORM, store, _page(unit, "Give a role", "Give this role", member))


@guard("manage_staff")
def revoke_role(request, unit, clinician, role):
    if role not in ROLES:
        raise Http404

    def store(form):
        staff_acts.take_back_role(request.actor, member, role, unit)
        return _member_address(unit, clinician)

    member = member_of(unit, clinician)
    page = _page(unit, f"Take back the role of {ROLES[role]}", f"Take back the role of {ROLES[role]}", member)
    page["says"] = "What was signed stays. They no longer see or record what this role allows on this unit."
    return answer_form(request, ConfirmForm(request.POST or None), FORM, store, page)


@guard("manage_staff")
def open_account(request, unit, clinician):
    made = []

    def store(form):
        said = form.cleaned_data["username"]
        made[:] = verbs.open_account(actor=request.actor, clinician=clinician, username=said)
        return _member_address(unit, clinician)

    member = member_of(unit, clinician)
    form = OpenAccountForm(request.POST or None)
    answer = answer_form(
        request, form, FORM, store, _page(unit, "Open a sign-in", "Open the sign-in", member)
    )
    return _shown_once(request, unit, clinician, made[0].username, made[1]) if made else answer


@guard("manage_staff")
def give_first_password(request, unit, clinician):
    made = []

    def store(form):
        made.append(staff_acts.give_first_password(request.actor, member))
        return _member_address(unit, clinician)

    member = member_of(unit, clinician)
    page = _page(unit, "Give a new first password", "Give a new first password", member)
    page["says"] = "For somebody who lost theirs. The old one stops working now, on every device."
    answer = answer_form(request, ConfirmForm(request.POST or None), FORM, store, page)
    return _shown_once(request, unit, clinician, member.user.username, made[0]) if made else answer


@guard("manage_staff")
def close_account(request, unit, clinician):
    def store(form):
        staff_acts.close_account(request.actor, member)
        return _member_address(unit, clinician)

    member = member_of(unit, clinician)
    page = _page(unit, "Close the sign-in", "Close this sign-in", member)
    page["says"] = "They are signed out everywhere and cannot sign in any more. What was signed stays."
    return answer_form(request, ConfirmForm(request.POST or None), FORM, store, page)


def _page(unit, title, button, member=None) -> dict:
    back = _member_address(unit, member.clinician) if member else reverse("staff", kwargs={"unit": unit.uid})
    return {"unit": unit, "title": title, "button": button, "member": member, "back": back}
