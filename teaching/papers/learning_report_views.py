"""The unit's learning on paper, straight into the browser: no copy is kept."""

from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.analysis.unit_learning import LearnedStay, unit_learning
from teaching.papers.dated import dated
from teaching.papers.learning_report import learning_report
from teaching.papers.learning_report_sheets import learning_report_pdf
from teaching.papers.views import inline
from teaching.record.checklists import checklist_of
from teaching.record.learned import shares
from teaching.record.places import policy_for, settings_of, ward_of


@guard("see_learning")
@require_safe
def learning_report_paper(request, unit):
    now = timezone.now()
    checklist = checklist_of(settings_of(unit).checklist)
    paper = learning_report(
        found=unit_learning([_stay(share) for share in shares(unit, now)]),
        titles={code: item.title for code, item in checklist.by_code.items()},
        unit=unit.name,
        printed_at=dated(now, ward_of(unit)),
        printed_by=name_of(request.user),
        policy=policy_for(unit, now).version,
    )
    return inline(learning_report_pdf(paper), "learning-report.pdf")


def _stay(share: dict) -> LearnedStay:
    """A kept share as the analysis takes it."""
    tries = {code: (count, came) for code, (count, came) in share["tries"].items()}
    return LearnedStay(**share | {"tries": tries})
