"""The handover of one person, and of a whole shift, straight into the browser: no copy is kept."""

from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.papers.handover import handover_content
from teaching.papers.handover_sheets import handover_pdf
from teaching.papers.views import inline
from teaching.record.handing_over import known_of, known_on
from teaching.record.places import policy_for, ward_of


@guard("print_handover")
@require_safe
def handover_paper(request, stay):
    now = timezone.now()
    return inline(handover_pdf(_paper(request, [known_of(stay, now, plan_anew=True)], now)), "handover.pdf")


@guard("print_handover")
@require_safe
def shift_handover(request, unit):
    now = timezone.now()
    paper = _paper(request, known_on(unit, now), now, whole_shift=True)
    return inline(handover_pdf(paper), "handover-of-the-shift.pdf")


def _paper(request, known, now, whole_shift=False):
    return handover_content(
        unit=request.unit.name,
        ward=ward_of(request.unit),
        people=[each.handover for each in known],
        now=now,
        printed_by=name_of(request.user),
        policy=policy_for(request.unit, now).version,
        whole_shift=whole_shift,
    )
