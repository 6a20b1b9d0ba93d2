"""Signing the readiness record: the page shows exactly what is signed, and those words and no others are kept."""

from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.fresh_proof import ask_proof
from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.papers.dated import dated
from teaching.papers.forms import SignReadinessForm
from teaching.papers.read_readiness import digest, record_of
from teaching.papers.readiness_record import MEANING
from teaching.papers.readiness_sheets import readiness_pdf
from teaching.papers.sign_readiness_page import SignReadinessPage
from teaching.papers.views import inline
from teaching.record.kept_papers import FactsMoved, keep_paper
from teaching.rules.paper_kinds import READINESS
from teaching.rules.vocabulary import ROLES


@guard("sign_readiness")
def sign_readiness(request, stay):
    now = timezone.now()
    form = ask_proof(request, SignReadinessForm(request.POST or None, now=now))
    drawn = _drawn(request, stay, form, now) if form.is_valid() else None

    def store(form):
        if drawn is None:
            raise FactsMoved
        keep_paper(actor=request.actor, stay=stay, kind=READINESS, meaning=MEANING, **drawn)
        return reverse("readiness", args=[stay.uid])

    chart, paper = record_of(stay, request.unit, now)
    page = SignReadinessPage(stay, chart, paper, now, digest(paper))
    return answer_form(request, form, "teaching/papers/sign_readiness.html", store, {"page": page, "stay": stay})


def _drawn(request, stay, form, now):
    """The words that were read, drawn before anything is locked; None where they would no longer be the same."""
    chart, paper = record_of(stay, request.unit, form.cleaned_data["judged_at"])
    if digest(paper) != form.cleaned_data["shown"]:
        return None
    role = " and ".join(ROLES[role] for role in request.actor.roles)
    signed = paper.signed(name_of(request.user), role, dated(now, chart.ward))
    return {
        "content": signed.plain, "pdf": readiness_pdf(signed), "revision": chart.revision,
        "policy_version": paper.policy,
    }  # fmt: skip


@guard("see_readiness")
@require_safe
def readiness_draft(request, stay):
    _, paper = record_of(stay, request.unit, timezone.now())
    return inline(readiness_pdf(paper), "readiness-draft.pdf")
