"""Kept papers once more: the very bytes that were kept, and a cover sheet made now that says what has changed since."""

from django.http import Http404
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.papers.changed_since import CoverSheet, changes
from teaching.papers.cover_sheets import cover_pdf
from teaching.papers.dated import dated
from teaching.papers.read_readiness import person_here, record_of
from teaching.papers.views import inline
from teaching.record.kept_papers import reprint
from teaching.rules.paper_kinds import PAPER_KINDS, READINESS


@guard("see_readiness")
@require_safe
def kept_paper(request, paper):
    return inline(reprint(actor=request.actor, paper=paper), f"{paper.kind}.pdf")


@guard("see_readiness")
@require_safe
def changed_since(request, paper):
    """Only what is judged anew can be compared: the readiness record."""
    if paper.kind != READINESS:
        raise Http404
    now = timezone.now()
    stay = paper.stay
    chart, today = record_of(stay, request.unit, now)
    sheet = CoverSheet(
        person=person_here(stay, request.unit),
        kind=PAPER_KINDS[paper.kind],
        headline=paper.content["headline"],
        changes=tuple(changes(paper.content, today.plain)),
        printed_by=name_of(request.user),
        printed_at=dated(now, chart.ward),
    )
    return inline(cover_pdf(sheet), "changed-since-signing.pdf")
