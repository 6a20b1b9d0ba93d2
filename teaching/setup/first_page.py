"""The first page of the set-up room: the units this person may set up, and what they may do on each."""

from dataclasses import dataclass

from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.scope import may, stays_for, units_for
from teaching.setup.lacking import lacking

LAST_OVER = 20
OVER = ("left", "stopped", "cancelled")


@dataclass(frozen=True)
class UnitLine:
    unit: object
    staff: bool
    settings: bool
    stays: bool
    people: list
    skills: bool
    over: list
    lacking: list


@guard("see_setup")
@require_safe
def setup(request):
    user, now = request.user, timezone.now()
    known = stays_for(user, "open_stay").select_related("now")
    stays = list(known.exclude(now__state__in=OVER).order_by("now__bed", "pk"))
    over = list(known.filter(now__state__in=OVER).order_by("-pk")[:LAST_OVER])
    lines = [
        UnitLine(
            unit=unit,
            staff=may(user, "manage_staff", unit),
            settings=may(user, "manage_unit", unit),
            stays=may(user, "open_stay", unit),
            people=[stay.now for stay in stays if stay.now.unit_id == unit.pk],
            skills=may(user, "see_skills", unit),
            over=[stay.now for stay in over if stay.now.unit_id == unit.pk],
            lacking=lacking(unit, now) if may(user, "manage_unit", unit) else [],
        )
        for unit in units_for(user, "see_setup")
    ]
    return render(request, "teaching/setup/setup.html", {"lines": lines})
