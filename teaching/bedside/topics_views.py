"""Topics: told, and explained in own words later. Told is not explained."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.band import band_of
from teaching.bedside.note_page import NotePage
from teaching.bedside.topics_form import TopicsForm, stands_at
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.record.sessions import record_session
from teaching.rules.assess import assess

TEMPLATE = "teaching/bedside/topics.html"
SAYS = "Ask them to say it back in their own words another time: what is said back at once is an echo."


class TopicsPage(NotePage):
    """`topics` are (item, field, where each learner stands): what still wants telling first, the rest folded."""

    def __init__(self, *args, form: TopicsForm, found, person: str, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        stands = stands_at(form.chart, found, person)
        wanting = {
            one.row.item.code for one in found.standings
            if one.row.item.procedure == "topics" and one.row.essential and not one.held
        }  # fmt: skip
        rows = [(item, form[f"topic.{item.code}"], stands.get(item.code, ())) for item in form.items]
        self.topics = [row for row in rows if row[0].code in wanting]
        self.others = [row for row in rows if row[0].code not in wanting]
        self.others_open = any(field.errors or field.value() for _, field, _ in self.others)


@guard("record_change")
def topics(request, stay):
    now, asker = timezone.now(), Asker(request)
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    person = band_of(stay, chart).name
    form = TopicsForm(request.POST or None, stay=stay, chart=chart, now=now, person=person)
    page = TopicsPage(
        stay, chart, now, asker, title="Topics", asks="Who listened", button="Sign: I taught and heard this",
        says=(SAYS,), form=form, found=assess(chart, policy, now), person=person,
    )  # fmt: skip

    def store(form):
        record_session(
            actor=request.actor, entry=form.entry("student" if asker.grade == "student" else "taught")
        )
        messages.success(request, f"Signed {chart.ward.local(now):%H:%M}.")
        return reverse("person", args=[stay.uid])

    return answer_form(request, form, TEMPLATE, store, {"page": page, "stay": stay})
