"""The transfer form of one person, and the blank session form of a unit: straight into the browser, no copy kept."""

from django.http import Http404
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.papers.blank_session import KINDS, blank_session_content
from teaching.papers.transfer import transfer_content
from teaching.papers.transfer_sheets import blank_session_pdf, transfer_pdf
from teaching.papers.views import inline
from teaching.record.checklists import checklist_of
from teaching.record.handing_over import known_of
from teaching.record.places import settings_of, ward_of
from teaching.rules.handover.sbar import clock


@guard("print_handover")
@require_safe
def transfer_form(request, stay):
    known = known_of(stay, timezone.now())
    paper = transfer_content(
        chart=known.chart,
        assessment=known.assessment,
        policy=known.policy,
        now=known.now,
        who=known.who,
        beside=known.beside,
        unit=request.unit.name,
        printed_by=name_of(request.user),
    )
    return inline(transfer_pdf(paper), "transfer-form.pdf")


@guard("print_handover")
@require_safe
def blank_session(request, unit, kind):
    if kind not in KINDS:
        raise Http404("No such form.")
    paper = blank_session_content(
        kind=kind,
        unit=unit.name,
        checklist=checklist_of(settings_of(unit).checklist),
        printed_at=clock(ward_of(unit), timezone.now()),
        printed_by=name_of(request.user),
    )
    return inline(blank_session_pdf(paper), "blank-session-form.pdf")
