"""One person, read from top to bottom."""

from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.brought_in import brought_in_words
from teaching.bedside.caution_page import cautions_of
from teaching.bedside.fit_page import fit_part
from teaching.bedside.person_page import PersonPage
from teaching.record.charts import chart_for
from teaching.record.origins import brought_in
from teaching.record.places import policy_for
from teaching.rules.assess import assess


@guard("see_person")
@require_safe
def person(request, stay):
    now = timezone.now()
    chart, policy, asker = chart_for(stay), policy_for(request.unit, now), Asker(request)
    page = PersonPage(stay, chart, assess(chart, policy, now), now, asker)
    page.cautions = cautions_of(chart, now, asker, policy)
    fit = fit_part(stay, chart, policy, now, asker)
    came = brought_in_words(brought_in(stay), chart.ward, now)
    shown = {"page": page, "stay": stay, "fit": fit, "brought_in": came}
    return render(request, "teaching/bedside/person.html", shown)
