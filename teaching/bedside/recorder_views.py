"""Recording at the bedside: one form for each procedure, each tap also kept by the server where scripts are on."""

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import JsonResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.dateparse import parse_datetime
from django.views.decorators.http import require_POST

from teaching.access.forms_in import KEY, answer_form, form_key
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.begun import elsewhere
from teaching.bedside.caution_raising import raise_for_wear, say
from teaching.bedside.kept_taps import device_of
from teaching.bedside.phrases import phrases_for
from teaching.bedside.powder import powder_hint
from teaching.bedside.recorder_form import RecorderForm
from teaching.bedside.recorder_page import RecorderPage
from teaching.bedside.recorders import CHANGES, EMPTYINGS, MEETINGS, NIGHTS
from teaching.bedside.seen_fields import finding_in
from teaching.bedside.taps import draft_for, keep, own_draft, put_away_meanwhile, raise_seen, said_so_far, sign
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.rules.huddle import when

TEMPLATE = "teaching/bedside/recorder.html"


@guard(EMPTYINGS.permission)
def emptying(request, stay):
    return recording(request, stay, EMPTYINGS)


@guard(CHANGES.permission)
def change(request, stay):
    return recording(request, stay, CHANGES)


@guard(NIGHTS.permission)
def night(request, stay):
    return recording(request, stay, NIGHTS)


@guard(MEETINGS.permission)
def meeting(request, stay):
    return recording(request, stay, MEETINGS)


@guard(EMPTYINGS.permission)
@require_POST
def tap_emptying(request, stay):
    return kept(request, stay, EMPTYINGS)


@guard(CHANGES.permission)
@require_POST
def tap_change(request, stay):
    return kept(request, stay, CHANGES)


@guard(NIGHTS.permission)
@require_POST
def tap_night(request, stay):
    return kept(request, stay, NIGHTS)


@guard(MEETINGS.permission)
@require_POST
def tap_meeting(request, stay):
    return kept(request, stay, MEETINGS)


def recording(request, stay, recorder):
    """The recorder's page and its signature."""
    now, asker, draft = timezone.now(), Asker(request), own_draft(request, stay)
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    form = RecorderForm(
        request.POST or None, initial=said_so_far(draft), recorder=recorder, stay=stay, chart=chart, policy=policy,
        now=now,
    )  # fmt: skip
    if "saw" in request.POST:
        return _keep_what_was_seen(request, stay, form, draft, policy)
    page = RecorderPage(stay, chart, form, now, asker)

    def store(form):
        role = "student" if asker.grade == "student" else "taught"
        entry = form.entry(role=role, draft=draft, client_skew_s=skew(request, now))
        account = sign(request.actor, entry, draft)
        raise_seen(request.actor, stay, form.stoma(), account.event.uid, form.cleaned_data, policy)
        waits = " It waits for a registered nurse to co-sign." if page.student else ""
        messages.success(request, f"Signed {page.clock}{_earlier(form, now)}.{waits}")
        if entry.finding and entry.finding.wear_end:
            for caution in raise_for_wear(request.actor, stay, entry.stoma, account.event.uid, policy, now):
                messages.warning(request, say(caution))
        return reverse("person", args=[stay.uid])

    context = {
        "page": page, "stay": stay, "draft": None if put_away_meanwhile(draft) else draft,
        "elsewhere": elsewhere(stay, draft, form, now, asker),
        "device": device_of(request.user, stay, recorder, chart), "phrases": phrases_for(request.unit, chart),
    }  # fmt: skip
    return answer_form(request, form, TEMPLATE, store, context)


def _earlier(form, now) -> str:
    """When it is said to have happened, where that was not just now."""
    began = form.cleaned_data["began_at"]
    return f". It happened {when(began, form.chart.ward, now)}" if began else ""


def _keep_what_was_seen(request, stay, form, draft, policy):
    """Scripts off: a worrying value is stored at once, and the rest of the form comes back as it was."""
    form.is_valid()
    if form.chosen:
        draft = draft_for(request.actor, stay, form.stoma(), form.chosen.procedure, draft)
        raise_seen(request.actor, stay, draft.stoma, draft.event_uid, form.cleaned_data, policy)
    form.keep_only_errors_of("which")
    page = RecorderPage(stay, chart_for(stay), form, form.now, Asker(request))
    context = {
        "page": page, "stay": stay, "form": form, "draft": draft, KEY: form_key(request),
        "phrases": phrases_for(request.unit, page.chart),
    }  # fmt: skip
    return render(request, TEMPLATE, context, status=200 if form.chosen else 422)


def kept(request, stay, recorder):
    """One tap, kept in the nurse's own draft. Answers {draft, at, cautions}; 409 if changed meanwhile."""
    now = timezone.now()
    chart, policy = chart_for(stay), policy_for(request.unit, now)
    form = RecorderForm(
        {"which": request.POST.get("which", "")}, recorder=recorder, stay=stay, chart=chart, policy=policy, now=now
    )  # fmt: skip
    form.is_valid()
    if not form.chosen:
        raise BadRequest("The tap names no stoma and learner of this person.")
    draft = draft_for(request.actor, stay, form.stoma(), form.chosen.procedure, own_draft(request, stay))
    answer, status = keep(request, draft, form, policy)
    if request.POST.get("field", "").startswith("skin.") and "ratings.powder" in form.fields:
        skin = {name: value for name, value in said_so_far(draft).items() if name.startswith("skin.")}
        answer["powder"] = powder_hint(finding_in(skin))
    return JsonResponse(answer | {"at": f"{chart.ward.local(now):%H:%M}"}, status=status)


def skew(request, now) -> int | None:
    """Device clock minus ours in seconds, None where it was not sent or makes no sense."""
    try:
        clock = parse_datetime(request.POST.get("clock", ""))
    except ValueError:
        return None
    seconds = (clock - now).total_seconds() if clock and clock.tzinfo else None
    return int(seconds) if seconds is not None and abs(seconds) < 2**31 else None
