"""What becomes of a stay: moved, paused, gone on with, stopped, left, cancelled, reopened; and the planned day home."""

from zoneinfo import ZoneInfo

from django.http import Http404
from django.urls import reverse

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.scope import may
from teaching.record.charts import chart_for
from teaching.record.drafts_of import open_drafts
from teaching.record.places import every_unit, settings_of
from teaching.record.stays import ENDED, note_stay_event, plan_home
from teaching.rules.huddle import spoken_date
from teaching.rules.vocabulary import PROCEDURES
from teaching.setup.whereabouts_forms import ACTS, PlannedHomeForm, StayEventForm

FORM = "teaching/setup/unit_form.html"
EVENT_FORM = "teaching/setup/stay_event.html"


@guard("open_stay")
def stay_event(request, stay, kind):
    if kind not in ACTS:
        raise Http404

    def store(form):
        made = note_stay_event(actor=request.actor, stay=stay, kind=kind, **form.said())
        seen = may(request.user, "open_stay", made.unit) and kind not in ENDED
        return reverse("stay-setup", args=[stay.uid]) if seen else reverse("setup")

    title, button, says = ACTS[kind]
    begun = open_drafts(stay, request.actor.clinician.pk) if kind == "left" else []
    form = StayEventForm(
        request.POST or None, kind=kind, units=every_unit(), now=stay.now, zone=stay.zone, begun=bool(begun)
    )
    page = {"stay": stay, "now": stay.now, "title": title, "button": button, "says": says}
    page["begun"] = [_begun(draft, stay, request.actor.clinician.pk) for draft in begun]
    return answer_form(request, form, EVENT_FORM, store, page | {"back": reverse("stay-setup", args=[stay.uid])})


def _begun(draft, stay, asker: int) -> tuple[str, str]:
    """(address, words): one's own is gone on with from the person's page, another's is taken over."""
    here = draft.begun_at.astimezone(ZoneInfo(stay.zone))
    own = draft.owner_id == asker
    address = reverse("person", args=[stay.uid]) if own else reverse("take-over", args=[draft.uid])
    who = "you" if own else draft.owner_name
    return address, f"{PROCEDURES[draft.procedure]}, begun {spoken_date(here.date())} {here:%H:%M} by {who}"


@guard("plan_home")
def planned_home(request, stay):
    def store(form):
        said = form.cleaned_data
        plan_home(actor=request.actor, stay=stay, at=said["at"], why=said["why"], goes_to=said["goes_to"])
        return back

    chart = chart_for(stay)
    back = reverse("person", args=[stay.uid])
    here = chart.planned_at and chart.ward.local(chart.planned_at)
    initial = {"day": here and here.date(), "hour": here and here.hour, "goes_to": chart.goes_to}
    form = PlannedHomeForm(
        request.POST or None, initial=initial, zone=stay.zone, leave_hour=settings_of(request.unit).leave_hour
    )
    page = {"stay": stay, "now": stay.now, "title": "The planned day home", "button": "Store the plan", "back": back}
    page["says"] = "Earlier plans stay on record. It is a plan to teach by, not a decision that they go."
    return answer_form(request, form, FORM, store, page)
