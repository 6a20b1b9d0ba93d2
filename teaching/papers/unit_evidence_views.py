"""A unit's evidence for an accreditor: kept as it was drawn, and printed again from the very bytes."""

from functools import partial

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.access.working import worked_on
from teaching.papers.forms import KeepEvidenceForm
from teaching.papers.unit_evidence import KIND, UnitEvidence, span_of, unit_evidence
from teaching.papers.unit_evidence_sheets import unit_evidence_pdf
from teaching.papers.views import inline
from teaching.record.kept_staff_papers import keep_staff_paper, reprint_staff_paper, staff_papers_of
from teaching.record.nurses import nurses
from teaching.record.places import policy_for, ward_of
from teaching.record.skill_history import skill_history
from teaching.rules.competence import months_later

ROLES = {"ward-nurse", "assistant", "educator", "stoma-nurse"}  # whose skills the grid shows


@guard("print_evidence")
def evidence(request, unit):
    now = timezone.now()
    today, lasts = ward_of(unit).date(now), policy_for(None, now).sign_off_lasts
    form = KeepEvidenceForm(
        request.POST if request.method == "POST" else None, today=today,
        initial={"first": months_later(today, -lasts), "last": today},
    )  # fmt: skip
    drawn = _drawn(request, unit, form.cleaned_data) if form.is_valid() else {}

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


def _drawn(request, unit, days: dict) -> dict:
    """Drawn before the transaction, which then reads the facts of the same moment once more."""
    read = partial(_evidence, unit, days, timezone.now(), name_of(request.user))
    paper = read()
    return {"content": paper.plain, "pdf": unit_evidence_pdf(paper), "still": lambda: read().plain}


def _evidence(unit, days: dict, now, printed_by) -> UnitEvidence:
    """Of everyone who worked on the unit in that time, the hospital's own staff among them."""
    ward = ward_of(unit)
    keys = [each.key for each in worked_on(unit, *span_of(days["first"], days["last"], ward)) if each.roles & ROLES]
    return unit_evidence(
        nurses=nurses(keys).values(), history=skill_history(keys), ward=ward, **days, now=now, unit=unit.name,
        printed_by=printed_by,
    )  # fmt: skip
