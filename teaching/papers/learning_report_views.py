"""The unit's learning on paper, straight into the browser: no copy is kept."""

from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.analysis.reading_apart import reading_apart
from teaching.analysis.small_groups import FEWEST
from teaching.analysis.unit_learning import kept_stay, unit_learning
from teaching.papers.dated import dated, day
from teaching.papers.learning_report import learning_report
from teaching.papers.learning_report_sheets import learning_report_pdf
from teaching.papers.views import inline
from teaching.record.checklists import checklist_of
from teaching.record.learned import shares
from teaching.record.paired import paired_ratings
from teaching.record.places import policy_for, settings_of, ward_of


@guard("see_learning")
@require_safe
def learning_report_paper(request, unit):
    now = timezone.now()
    policy = policy_for(unit, now)
    checklist, ward = checklist_of(settings_of(unit).checklist), ward_of(unit)
    told = shares(unit, now, FEWEST)
    paper = learning_report(
        found=unit_learning([kept_stay(share) for share in told.shares], policy.stays_for_curves),
        until=day(ward.date(told.until)) if told.until else "",
        reading=reading_apart(paired_ratings(unit), policy.paired_sessions),
        titles=checklist.titles,
        unit=unit.name,
        printed_at=dated(now, ward),
        printed_by=name_of(request.user),
        policy=policy.version,
    )
    return inline(learning_report_pdf(paper), "learning-report.pdf")
