"""A unit's evidence for an accreditor: kept as it was drawn, and printed again from the very bytes."""

from functools import partial

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.access.working import working_on
from teaching.papers.unit_evidence import KIND, UnitEvidence, unit_evidence
from teaching.papers.unit_evidence_form import KeepEvidenceForm
from teaching.papers.unit_evidence_sheets import unit_evidence_pdf
from teaching.papers.views import inline
from teaching.record.kept_staff_papers import keep_staff_paper, reprint_staff_paper, staff_papers_of
from teaching.record.nurses import nurses
from teaching.record.places import policy_for, ward_of
from teaching.record.skill_history import skill_history
from teaching.record.skills import skills_in_force

ROLES = {"ward-nurse", "assistant", "educator", "stoma-nurse"}  # whose skills the grid shows


@guard("print_evidence")
def evidence(request, unit):
    form = KeepEvidenceForm(request.POST if request.method == "POST" else None)
    drawn = _drawn(request, unit) if form.is_valid() else {}

    def store(form):
        keep_staff_paper(actor=request.actor, unit=unit, kind=KIND, **drawn)
        messages.success(request, "Kept: the unit's evidence. Print it below.")
        return reverse("unit-evidence", args=[unit.uid])

    context = {"unit": unit, "kept": staff_papers_of(unit, KIND)}
    return answer_form(request, form, "teaching/papers/unit_evidence_page.html", store, context)


@guard("print_evidence")
@require_safe
def kept_evidence(request, staff_paper):
    return inline(reprint_staff_paper(actor=request.actor, paper=staff_paper), f"{staff_paper.kind}.pdf")


def _drawn(request, unit) -> dict:
    """Drawn before the transaction, which then reads the facts of the same moment once more."""
    read = partial(_evidence, unit, timezone.now(), name_of(request.user))
    paper = read()
    return {"content": paper.plain, "pdf": unit_evidence_pdf(paper), "still": lambda: read().plain}


def _evidence(unit, now, printed_by) -> UnitEvidence:
    """Of everyone who works on the unit now, the hospital's own staff among them."""
    keys = [each.key for each in working_on(unit) if each.roles & ROLES]
    return unit_evidence(
        nurses=nurses(keys).values(),
        skills=skills_in_force(),
        history=skill_history(keys),
        policy=policy_for(None, now),
        ward=ward_of(unit),
        now=now,
        unit=unit.name,
        printed_by=printed_by,
    )
