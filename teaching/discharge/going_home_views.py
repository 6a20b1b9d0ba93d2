"""Who goes home when, and who will not make it without help; the same from Friday to Monday."""

from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.scope import units_for
from teaching.discharge.going_home_page import GoingHomePage
from teaching.record.outlook import going_home as everybody
from teaching.record.places import ward_of


@guard("see_readiness")
@require_safe
def everybody_going_home(request):
    """The way there from a link that names no unit."""
    unit = units_for(request.user, "see_readiness").first()
    return redirect("going-home", unit=unit.uid) if unit else redirect("home")


@guard("see_readiness")
@require_safe
def going_home(request, unit):
    return _list(request, unit, weekend=False)


@guard("see_readiness")
@require_safe
def weekend(request, unit):
    return _list(request, unit, weekend=True)


def _list(request, unit, weekend):
    now = timezone.now()
    page = GoingHomePage(unit, ward_of(unit), everybody(unit, now), now, weekend)
    return render(request, "teaching/discharge/going_home.html", {"page": page, "unit": unit})
