"""What was signed, to be told anew: the form that it was signed with, filled in, and the page around it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from django import forms

from teaching.bedside.band import band_of
from teaching.bedside.care_again import CareAgain
from teaching.bedside.care_page import CarePage
from teaching.bedside.note_page import NotePage
from teaching.bedside.recheck_again import RecheckAgain
from teaching.bedside.recorder_initial import form_of
from teaching.bedside.recorder_page import RecorderPage
from teaching.bedside.topics_again import TopicsAgain
from teaching.bedside.topics_page import TopicsPage
from teaching.rules.assess import assess
from teaching.rules.facts import Chart
from teaching.rules.huddle import when
from teaching.rules.policy import Policy

TITLE, SIGN = "Correct what was signed", "Sign the corrected version"
ONLY = "Correct who it was, and when. Was it something else? Mark it as entered in error, then record anew."


@dataclass(frozen=True, slots=True)
class Again:
    """`entry` gives the entry once the form is valid; `template` is of teaching/bedside/."""

    form: forms.Form
    page: Any
    template: str
    entry: Callable[[], Any]


def again(account, data, chart: Chart, policy: Policy, now, asker) -> Again:
    """`chart` is without the event itself, by the checklist of then."""
    told = _form_for(account.event)(account, data, chart, policy, now, asker)
    _ask_when(told.form)
    told.page.happened = f"as signed, {when(account.began_at, chart.ward, now)}"
    return told


def _ask_when(form: forms.Form) -> None:
    """Left empty it would be "just now"; here it is the time that was signed, or another one."""
    when_it_was = form.fields.get("began_at") or form.fields.get("at")
    if when_it_was is None:
        return
    when_it_was.label, when_it_was.help_text, when_it_was.required = "When it happened", "", True
    when_it_was.error_messages["required"] = "Say when it happened."


def _form_for(event) -> Callable[..., Again]:
    if event.kind == "recheck":
        return _recheck
    if event.procedure == "topics":
        return _topics
    return _recorder if event.kind == "teaching" or event.procedure == "meeting" else _care


def _care(account, data, chart, policy, now, asker) -> Again:
    form, page = CareAgain(data, account=account, chart=chart), CarePage(account.stay, chart, now, asker)
    page.title, page.sign = "Correct the care you signed", SIGN
    return Again(form, page, "correct_care.html", form.entry)


def _recorder(account, data, chart, policy, now, asker) -> Again:
    form = form_of(account, data, chart=chart, policy=policy, now=now)
    if account.event.kind == "care":
        form.initial["which"] = f"{account.event.stoma.uid}:{account.stay.learners.get(kind='person').uid}"
    page = RecorderPage(account.stay, chart, form, now, asker)
    page.taps, page.title, page.signature = "", TITLE, SIGN
    return Again(form, page, "correct.html", lambda: form.entry(role=account.role))


def _recheck(account, data, chart, policy, now, asker) -> Again:
    person = band_of(account.stay, chart).name
    form = RecheckAgain(data, account=account, chart=chart, policy=policy, person=person)
    asks = "1. Who still manages it, and when"
    page = NotePage(account.stay, chart, now, asker, title=TITLE, asks=asks, button=SIGN, says=(ONLY,))
    return Again(form, page, "correct_recheck.html", form.entry)


def _topics(account, data, chart, policy, now, asker) -> Again:
    person = band_of(account.stay, chart).name
    form = TopicsAgain(data, account=account, chart=chart, person=person)
    page = TopicsPage(
        account.stay, chart, now, asker, title=TITLE, asks="", button=SIGN, form=form,
        found=assess(chart, policy, account.began_at), person=person,
    )  # fmt: skip
    page.waits = ""  # it is over: nothing is to be taught here
    return Again(form, page, "correct_topics.html", lambda: form.entry(account.role))


def without(chart: Chart, event: str) -> Chart:
    """The chart as it would be had this event not been written down."""
    left = {
        name: tuple(one for one in getattr(chart, name) if one.event != event)
        for name in ("ratings", "findings", "care", "rechecks")
    }
    return replace(chart, **left)
