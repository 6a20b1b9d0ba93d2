"""This shift, and the huddle list on screen."""

from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.scope import may, units_for
from teaching.bedside.shift_page import ShiftPage
from teaching.record.accounts_of import waiting_for_cosign
from teaching.record.figures import board
from teaching.record.places import ward_of


@guard("see_shift")
@require_safe
def this_shift(request, unit):
    now = timezone.now()
    others = [other for other in units_for(request.user, "see_shift") if other != unit]
    ticks = may(request.user, "tick_huddle", unit)
    handing_over = may(request.user, "print_handover", unit)
    waiting = waiting_for_cosign(unit).count() if may(request.user, "cosign", unit) else 0
    page = ShiftPage(unit, ward_of(unit), board(unit, now), now, others, ticks, handing_over, waiting)
    return render(request, "teaching/bedside/this_shift.html", {"page": page})


@guard("see_shift")
@require_safe
def huddle(request, unit):
    now = timezone.now()
    page = ShiftPage(unit, ward_of(unit), board(unit, now), now, ticks=may(request.user, "tick_huddle", unit))
    return render(request, "teaching/bedside/huddle.html", {"page": page})
