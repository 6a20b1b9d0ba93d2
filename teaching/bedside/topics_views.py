"""Topics: told, and explained in own words later. Told is not explained."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.band import band_of
from teaching.bedside.phrases import phrases_for
from teaching.bedside.topics_form import TopicsForm
from teaching.bedside.topics_page import TopicsPage
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.record.sessions import record_session
from teaching.rules.assess import assess

TEMPLATE = "teaching/bedside/topics.html"


@guard("record_change")
def topics(request, stay):
    now, asker = timezone.now(), Asker(request)
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    person = band_of(stay, chart).name
    form = TopicsForm(request.POST or None, stay=stay, chart=chart, now=now, person=person)
    page = TopicsPage(
        stay, chart, now, asker, title="Topics", asks="Who listened", button="Sign: I taught and heard this",
        form=form, found=assess(chart, policy, now), person=person,
    )  # fmt: skip

    def store(form):
        record_session(
            actor=request.actor, entry=form.entry("student" if asker.grade == "student" else "taught")
        )
        messages.success(request, f"Signed {chart.ward.local(now):%H:%M}.")
        return reverse("person", args=[stay.uid])

    context = {"page": page, "stay": stay, "phrases": phrases_for(request.unit, chart)}
    return answer_form(request, form, TEMPLATE, store, context)
