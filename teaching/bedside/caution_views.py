"""A caution's next step: told, settled, tapped by mistake."""

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.caution_forms import MistakeForm, SettledForm, ToldForm
from teaching.bedside.caution_page import CautionStepPage
from teaching.record.cautions import settle_caution, tell_caution, withdraw_caution
from teaching.record.charts import chart_for
from teaching.record.places import policy_for

TEMPLATE = "teaching/bedside/caution_step.html"


def _step(request, caution, step, form_class, verb):
    """The page of one step; `verb` is called with what the form says."""
    stay, now = caution.stay, timezone.now()
    chart, asker = chart_for(stay), Asker(request)
    policy = policy_for(request.unit, now)
    page = CautionStepPage(step, stay, chart, str(caution.uid), policy, now, asker.signs_as, asker)
    form = form_class(request.POST or None, initial=page.initial, ward=chart.ward)

    def store(form):
        said = {name: value for name, value in form.cleaned_data.items() if name != "how"}
        verb(actor=request.actor, caution=caution, **said | {"at": said.get("at") or now})
        messages.success(request, f"Stored: {page.title.lower()}.")
        return reverse("person", args=[stay.uid])

    return answer_form(request, form, TEMPLATE, store, {"page": page, "stay": stay})


@guard("tell_caution")
def told(request, caution):
    return _step(request, caution, "told", ToldForm, tell_caution)


@guard("settle_caution")
def settled(request, caution):
    return _step(request, caution, "settled", SettledForm, settle_caution)


@guard("settle_caution")
def mistake(request, caution):
    return _step(request, caution, "mistake", MistakeForm, withdraw_caution)
