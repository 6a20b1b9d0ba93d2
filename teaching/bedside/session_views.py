"""A session that is signed: read in full, a note beside it, entered in error, co-signed; those that wait for it."""

from django.contrib import messages
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.fresh_proof import ask_proof
from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.session_forms import CosignForm, InErrorForm, NoteForm
from teaching.bedside.session_page import SessionPage
from teaching.record.accounts_of import accounts_of, waiting_for_cosign
from teaching.record.another_account import sheet_of
from teaching.record.corrections import add_addendum, leaning, papers_leaning_on, retract_account
from teaching.record.places import policy_for, ward_of
from teaching.record.sessions import cosign as cosign_account
from teaching.rules.huddle import when
from teaching.rules.vocabulary import PROCEDURES

ACT = "teaching/bedside/session_act.html"


def page_of(request, event):
    now = timezone.now()
    policy = policy_for(request.unit, now)
    return SessionPage(event, accounts_of(event), sheet_of(event).chart, policy, now, Asker(request))


@guard("see_person")
@require_safe
def session(request, event):
    return render(request, "teaching/bedside/session.html", {"page": page_of(request, event), "stay": event.stay})


def _act(request, account, form, title, button, done, verb):
    """One act about one account, then back to the session."""

    def store(form):
        verb(form)
        messages.success(request, done)
        return reverse("session", args=[account.event.uid])

    page = page_of(request, account.event)
    context = {
        "page": page, "version": page.about(account), "stay": account.stay, "account": account, "title": title,
        "button": button,
    }  # fmt: skip
    return answer_form(request, form, ACT, store, context)


@guard("correct_account")
def add_note(request, account):
    def store(form):
        add_addendum(actor=request.actor, account=account, words=form.cleaned_data["words"])

    form = NoteForm(request.POST or None)
    return _act(request, account, form, "A note beside this", "Sign the note", "Stored: a note beside it.", store)


@guard("correct_account")
def entered_in_error(request, account):
    papers = papers_leaning_on(account.event)

    def store(form):
        cleaned = form.cleaned_data
        retract_account(
            actor=request.actor, account=account, reason=cleaned["reason"], aware=cleaned.get("aware", False)
        )

    form = ask_proof(request, InErrorForm(request.POST or None, leaning=leaning(papers) if papers else ""))
    said = "Stored: entered in error. It stays readable and counts no more."
    return _act(request, account, form, "Entered in error", "Sign: entered in error", said, store)


@guard("cosign")
def cosign(request, account):
    def store(form):
        cosign_account(actor=request.actor, account=account)

    form = CosignForm(request.POST or None)
    said = "Co-signed. It counts now as a registered nurse's."
    return _act(request, account, form, "Co-sign a student's entry", "Co-sign: I saw this too", said, store)


@guard("cosign")
@require_safe
def waiting(request, unit):
    """Students' entries of the unit that wait for a co-signature."""
    now, ward = timezone.now(), ward_of(unit)
    lines = [
        (
            reverse("session", args=[one.event.uid]), one.bed, PROCEDURES[one.event.procedure].lower(),
            one.rater_name, when(one.began_at, ward, now),
        )
        for one in waiting_for_cosign(unit)
    ]  # fmt: skip
    return render(request, "teaching/bedside/waiting.html", {"lines": lines, "unit": unit})
