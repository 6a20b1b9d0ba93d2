"""One person, read from top to bottom."""

from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.person_page import PersonPage
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.rules.assess import assess


@guard("see_person")
@require_safe
def person(request, stay):
    now = timezone.now()
    chart = chart_for(stay)
    page = PersonPage(stay, chart, assess(chart, policy_for(request.unit, now), now), now, Asker(request))
    return render(request, "teaching/bedside/person.html", {"page": page, "stay": stay})
