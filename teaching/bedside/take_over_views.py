"""Going on with a session that another nurse began: each signs only what they saw themselves."""

from django import forms
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.acts import address_of
from teaching.bedside.asker import Asker
from teaching.bedside.note_page import NOTE, NotePage
from teaching.record.charts import chart_for
from teaching.record.drafts import take_over_draft
from teaching.rules.huddle import when
from teaching.rules.vocabulary import PROCEDURES

SAYS = (
    "From now on it is yours to go on with and to sign. What was tapped before stays with whoever tapped it: they "
    "sign that part themselves, and you sign only what you see.",
)


@guard("record_emptying")
def take_over(request, draft):
    """The nurse who began it is told at their next tap."""
    stay, now = draft.stay, timezone.now()
    chart = chart_for(stay)

    def store(form):
        taken = take_over_draft(actor=request.actor, draft=draft)
        return address_of(taken, stay)

    page = NotePage(
        stay, chart, now, Asker(request), title="Go on with this session",
        asks=f"{PROCEDURES[draft.procedure]}, begun {when(draft.begun_at, chart.ward, now)}", says=SAYS,
        button="Go on with it: it is mine now", links=((reverse("person", args=[stay.uid]), "Leave it as it is"),),
    )  # fmt: skip
    return answer_form(request, forms.Form(request.POST or None), NOTE, store, {"page": page, "stay": stay})
