"""About one learner: when a helper is there, and what makes learning harder."""

from django import forms
from django.http import Http404
from django.urls import reverse

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.record.charts import chart_for
from teaching.record.learners import record_hours, record_need
from teaching.rules.vocabulary import NEEDS
from teaching.setup.hours_form import FILLED, HoursForm, filled
from teaching.setup.stay_forms import text

HOURS, FORM = "teaching/setup/learner_hours.html", "teaching/setup/unit_form.html"


@guard("open_stay")
def helper_hours(request, learner):
    """`?fill=` begins with a whole week; nothing of it is stored before the form is."""
    if learner.kind != "helper":
        raise Http404
    known = chart_for(learner.stay).learner(str(learner.uid))
    fill = request.GET.get("fill", "")
    week = filled(fill) if fill in FILLED else known.week

    def store(form):
        said = {name: form.cleaned_data[name] for name in ("week", "exceptions", "lives_in", "minutes_away")}
        record_hours(actor=request.actor, learner=learner, **said)
        return _address(learner)

    form = HoursForm(
        request.POST or None, zone=learner.stay.zone, week=week, exceptions=known.exceptions,
        initial={"lives_in": known.lives_in, "minutes_away": known.minutes_away},
    )  # fmt: skip
    page = _page(learner, f"When {learner.name} is there", "Store these hours") | {"fills": FILLED}
    return answer_form(request, form, HOURS, store, page)


class NeedsForm(forms.Form):
    needs = forms.MultipleChoiceField(
        label="What makes it harder", choices=list(NEEDS.items()), required=False,
        widget=forms.CheckboxSelectMultiple, help_text="Take a tick away once it no longer holds.",
    )  # fmt: skip
    words = text("In words", 200, help_text="Such as the language, which hand, or what helps.")


@guard("open_stay")
def learning_needs(request, learner):
    known = chart_for(learner.stay).learner(str(learner.uid)).needs

    def store(form):
        said, words = set(form.cleaned_data["needs"]), form.cleaned_data["words"]
        for code in NEEDS:
            if (code in said) != (code in known) or (words and code in said):
                record_need(actor=request.actor, learner=learner, code=code, words=words, present=code in said)
        return _address(learner)

    form = NeedsForm(request.POST or None, initial={"needs": sorted(known)})
    who = learner.name or learner.stay.now.name
    return answer_form(request, form, FORM, store, _page(learner, f"What makes learning harder: {who}", "Store this"))


def _address(learner) -> str:
    return reverse("stay-setup", args=[learner.stay.uid])


def _page(learner, title: str, button: str) -> dict:
    stay = learner.stay
    return {"stay": stay, "now": stay.now, "title": title, "button": button, "back": _address(learner)}
