"""What the unit's people stumble on, and what two nurses read differently: counts and shares, never a chart."""

from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.scope import units_for
from teaching.analysis.learning_said import learning_said
from teaching.analysis.reading_apart import reading_apart
from teaching.analysis.small_groups import FEWEST
from teaching.analysis.unit_learning import kept_stay, unit_learning
from teaching.education.agreement_page import AgreementPage
from teaching.record.checklists import checklist_of
from teaching.record.learned import shares
from teaching.record.paired import paired_ratings
from teaching.record.places import policy_for, settings_of
from teaching.rules.band import day_words
from teaching.rules.readiness import RESULTS
from teaching.rules.ward import Ward


@guard("see_learning")
@require_safe
def learning_first(request):
    """The way there from a link that names no unit."""
    unit = units_for(request.user, "see_learning").first()
    return redirect("learning", unit=unit.uid) if unit else redirect("home")


@guard("see_learning")
@require_safe
def learning(request, unit):
    now = timezone.now()
    titles, policy = checklist_of(settings_of(unit).checklist).titles, policy_for(unit, now)
    told = shares(unit, now, FEWEST)
    found = unit_learning([kept_stay(share) for share in told.shares], policy.stays_for_curves)
    until = day_words(Ward(unit.zone).date(told.until)) if told.until else ""
    page = learning_said(found, until, titles, RESULTS)
    return render(request, "teaching/education/learning.html", {"page": page, "unit": unit})


@guard("see_learning")
@require_safe
def agreement(request, unit):
    checklist, policy = checklist_of(settings_of(unit).checklist), policy_for(unit, timezone.now())
    page = AgreementPage(unit, checklist.titles, reading_apart(paired_ratings(unit), policy.paired_sessions))
    return render(request, "teaching/education/agreement.html", {"page": page, "unit": unit})
