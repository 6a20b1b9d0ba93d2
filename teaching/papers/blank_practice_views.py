"""A blank practice form of one skill, straight into the browser: for a downtime."""

from django.http import Http404
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.papers.blank_practice import BlankPractice
from teaching.papers.blank_practice_sheets import blank_practice_pdf
from teaching.papers.dated import dated
from teaching.papers.views import inline
from teaching.record.places import ward_of
from teaching.record.skills import skills_in_force


@guard("observe_practice")
@require_safe
def blank_practice(request, unit, skill):
    found = next((each for each in skills_in_force() if each.code == skill), None)
    if found is None:
        raise Http404("No such skill is published.")
    paper = BlankPractice(found, unit.name, dated(timezone.now(), ward_of(unit)), name_of(request.user))
    return inline(blank_practice_pdf(paper), "blank-practice-form.pdf")
