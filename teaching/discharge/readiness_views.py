"""One person's readiness, worked out from the record itself."""

from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.discharge.leaving_next import leaving_next
from teaching.discharge.papers_list import papers_of
from teaching.discharge.plan_page import PlanPage, here_now
from teaching.discharge.readiness_page import ReadinessPage
from teaching.record.arranged_by import arranged_by
from teaching.record.kept_papers import Stands
from teaching.record.outlook import readiness_of
from teaching.rules.plan import plan


@guard("see_readiness")
@require_safe
def readiness(request, stay):
    now = timezone.now()
    chart, assessment, found, policy = readiness_of(stay, now)
    page = ReadinessPage(stay, chart, assessment, found, policy, now, arranged_by(stay))
    told = None if page.at_rest else PlanPage(
        plan(chart, assessment, policy, now), chart, now, here_now(chart, assessment, policy, now)
    )  # fmt: skip
    stands = Stands(chart.revision, policy.version, page.result)
    context = {"page": page, "stay": stay, "papers": papers_of(stay, stands), "plan": told}
    context["leaving"] = leaving_next(request, stay, policy, now)
    return render(request, "teaching/discharge/readiness.html", context)
