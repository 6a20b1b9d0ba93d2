"""Once a sheet of leaving against the plan is kept: print it, and note that they have left. Never noted by itself."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.access.scope import may
from teaching.record.promised_calls import going_against_plan
from teaching.record.stays import may_follow
from teaching.rules.lines import Policy


@dataclass(frozen=True, slots=True)
class LeavingNext:
    """Addresses: the kept sheet, and the page where a nurse notes that they have left ("" for who may not)."""

    sheet: str
    left: str


def leaving_next(request, stay, policy: Policy, now: datetime) -> LeavingNext | None:
    """None where no sheet was signed lately, where they stayed after all, or have left."""
    sheet = going_against_plan(stay, now - policy.calls_listed)
    if sheet is None or "left" not in may_follow(stay.now.state):
        return None
    noted = may(request.user, "open_stay", request.unit)
    left = reverse("stay-event", args=[stay.uid, "left"]) if noted else ""
    return LeavingNext(reverse("kept-paper", args=[sheet]), left)
