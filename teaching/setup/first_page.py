"""The first page of the set-up room: the units this person may set up, and what they may do on each."""

from dataclasses import dataclass

from django.shortcuts import render
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.scope import may, stays_for, units_for

OVER = ("left", "stopped", "cancelled")


@dataclass(frozen=True)
class UnitLine:
    unit: object
    staff: bool
    settings: bool
    stays: bool
    people: list


@guard("see_setup")
@require_safe
def setup(request):
    user = request.user
    here = stays_for(user, "open_stay").exclude(now__state__in=OVER)
    stays = list(here.select_related("now").order_by("now__bed", "pk"))
    lines = [
        UnitLine(
            unit=unit,
            staff=may(user, "manage_staff", unit),
            settings=may(user, "manage_unit", unit),
            stays=may(user, "open_stay", unit),
            people=[stay.now for stay in stays if stay.now.unit_id == unit.pk],
        )
        for unit in units_for(user, "see_setup")
    ]
    return render(request, "teaching/setup/setup.html", {"lines": lines})
