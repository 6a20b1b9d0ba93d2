"""One nurse: one's own page, and anybody's for those who see everyone's skills."""

from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.scope import may
from teaching.education.nurse_page import NursePage, Viewer
from teaching.education.reading_alike import reading_alike
from teaching.record.checklists import checklist_of
from teaching.record.nurses import nurses
from teaching.record.paired import rated_with_a_holder
from teaching.record.places import policy_for, settings_of, ward_of
from teaching.record.skills import asks_on, skills_in_force


def _page(request, unit, nurse) -> NursePage:
    now, own = timezone.now(), request.user.clinician
    known = nurses(sorted({nurse.pk, own.pk}))
    asked = {"observes": "observe_practice", "withdraws": "withdraw_sign_off", "accepts": "manage_staff",
             "sees_shift": "see_shift"}  # fmt: skip
    allowed = {name: may(request.user, permission, unit) for name, permission in asked.items()}
    viewer = Viewer(known[own.pk], own=own.pk == nurse.pk, **allowed)
    ward, checklist = ward_of(unit), checklist_of(settings_of(unit).checklist)
    required = {code for code, item in checklist.by_code.items() if item.essential}
    return NursePage(
        unit, nurse.uid, known[nurse.pk], skills_in_force(), viewer, asks_on(unit, nurse.pk), policy_for(None, now),
        ward, now, reading_alike(rated_with_a_holder(nurse.pk), required, ward),
    )  # fmt: skip


@guard("see_own_skills")
@require_safe
def own_skills(request, unit):
    page = _page(request, unit, request.user.clinician)
    return render(request, "teaching/education/nurse.html", {"page": page, "unit": unit})


@guard("see_skills")
@require_safe
def nurse_skills(request, unit, nurse):
    """Anybody's own page is the same page with what only they may do."""
    if nurse == request.user.clinician:
        return redirect("own-skills", unit=unit.uid)
    page = _page(request, unit, nurse)
    return render(request, "teaching/education/nurse.html", {"page": page, "unit": unit, "grid": True})
