"""Leaving against the plan: one form, one signature, one sheet that is kept and goes along."""

import json
from hashlib import sha256

from django.contrib import messages
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.fresh_proof import ask_proof
from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.papers.against_plan import MEANING, against_plan, changes_said, lacking_said, leaving_now
from teaching.papers.against_plan_page import AgainstPlanPage
from teaching.papers.against_plan_sheets import against_plan_pdf
from teaching.papers.dated import dated
from teaching.papers.forms import AgainstPlanForm
from teaching.papers.read_take_home import home_of
from teaching.papers.readiness_record import Signature
from teaching.papers.take_home_facts import number_to_ring
from teaching.record.kept_papers import FactsMoved, keep_paper
from teaching.rules.paper_kinds import AGAINST_PLAN
from teaching.rules.vocabulary import ROLES


@guard("sign_readiness")
def leaving_against_plan(request, stay):
    now = timezone.now()
    home = home_of(stay, request.unit, now)
    asked = AgainstPlanForm(
        request.POST or None, now=now, zone=stay.zone, number=number_to_ring(home.chart, now), policy=home.policy
    )
    form = ask_proof(request, asked)
    drawn = _drawn(request, stay, form, now) if form.is_valid() else None

    def store(form):
        if drawn is None:
            raise FactsMoved
        keep_paper(actor=request.actor, stay=stay, kind=AGAINST_PLAN, meaning=MEANING, **drawn)
        messages.success(request, "Signed and kept. Print it below: it goes along.")
        return reverse("readiness", args=[stay.uid])

    readiness = leaving_now(home.chart, home.policy, now)
    page = AgainstPlanPage(stay, home, readiness, now, digest(home, readiness))
    return answer_form(request, form, "teaching/papers/against_plan_page.html", store, {"page": page, "stay": stay})


def _drawn(request, stay, form, now):
    """The sheet on what was read; None where something of it would no longer be said."""
    judged_at = form.cleaned_data["judged_at"]
    home = home_of(stay, request.unit, judged_at)
    readiness = leaving_now(home.chart, home.policy, judged_at)
    if digest(home, readiness) != form.cleaned_data["shown"]:
        return None
    role = " and ".join(ROLES[role] for role in request.actor.roles)
    paper = against_plan(
        home.chart, readiness, home.policy, now, person=home.person, slots=home.slots,
        signature=Signature(name_of(request.user), role, dated(now, home.chart.ward), MEANING), **form.said(),
    )  # fmt: skip
    return {
        "content": paper.plain, "pdf": against_plan_pdf(paper), "revision": home.chart.revision,
        "policy_version": paper.policy,
    }  # fmt: skip


def digest(home, readiness) -> str:
    """Of what the page says is open and when a change is due, and of the facts it came from."""
    said = [home.chart.revision, home.policy.version, *lacking_said(readiness), *changes_said(home.chart, readiness)]
    return sha256(json.dumps(said).encode()).hexdigest()
