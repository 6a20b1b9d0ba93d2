"""A session begun by mistake is put away; all that was tapped in it stays readable at the same address."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.put_away_page import PutAwayForm, PutAwayPage
from teaching.record.charts import chart_for
from teaching.record.drafts import put_away_draft
from teaching.record.places import policy_for

PUT_AWAY = "teaching/bedside/put_away.html"


@guard("record_emptying")
def put_away(request, draft):
    """Only who has it, or has a part of it; others read it, and take it over first."""
    now, stay = timezone.now(), draft.stay
    page = PutAwayPage(draft, chart_for(stay), policy_for(request.unit, now), now, Asker(request))

    def store(form):
        put_away_draft(actor=request.actor, draft=draft, why=form.cleaned_data["why"])
        messages.success(request, "Put away. What was tapped stays readable under Sessions.")
        return reverse("person", args=[stay.uid])

    return answer_form(request, PutAwayForm(request.POST or None), PUT_AWAY, store, {"page": page, "stay": stay})
