"""One person's handover, on screen."""

from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.bedside.asker import Asker
from teaching.bedside.handover_page import HandoverPage
from teaching.record.handing_over import known_of


@guard("print_handover")
@require_safe
def handover(request, stay):
    page = HandoverPage(stay, known_of(stay, timezone.now(), plan_anew=True), Asker(request))
    return render(request, "teaching/bedside/handover.html", {"page": page, "stay": stay})
