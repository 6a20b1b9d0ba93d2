"""Nurses by skill; and the way there from anybody's first link."""

from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.scope import may, units_for
from teaching.access.working import working_on
from teaching.education.skills_page import SkillsPage, shown
from teaching.record.nurses import nurses
from teaching.record.places import policy_for, ward_of
from teaching.record.skills import skills_in_force


@guard("see_own_skills")
@require_safe
def skills(request):
    """Whoever sees everyone's skills goes to the grid, anybody else to their own page."""
    for permission, name in (("see_skills", "nurses-by-skill"), ("see_own_skills", "own-skills")):
        unit = units_for(request.user, permission).first()
        if unit:
            return redirect(name, unit=unit.uid)
    return redirect("home")


@guard("see_skills")
@require_safe
def nurses_by_skill(request, unit):
    now, people = timezone.now(), shown(working_on(unit))
    others = [other for other in units_for(request.user, "see_skills") if other != unit]
    page = SkillsPage(
        unit, people, nurses([each.key for each in people]), skills_in_force(), policy_for(None, now), ward_of(unit),
        now, others,
    )  # fmt: skip
    prints = may(request.user, "print_evidence", unit)
    return render(request, "teaching/education/nurses_by_skill.html", {"page": page, "unit": unit, "prints": prints})
