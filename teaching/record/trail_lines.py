"""Trail lines read back, newest first, and how many there are. Whether they hold is asked of `examining`."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import CharField, Exists, Q, Value
from django.db.models.functions import Cast, Replace

from teaching.models import ClinicianDetails, Membership, Seal, TrailLine, Unit
from teaching.record.seals import sealed_to
from teaching.rules.vocabulary import HOSPITAL_ROLES

DASH, NOTHING = Value("-"), Value("")


@dataclass(frozen=True, slots=True)
class Line:
    """One act. `who` is the name of whoever did it, "" for nobody; `object` words and uids, as it was written."""

    number: int
    at: datetime
    unit: str
    who: str
    role: str
    verb: str
    outcome: str
    object: str


def lines_of(units: Sequence[Unit], before: int | None, most: int) -> list[Line]:
    """At most so many lines about these units, newest first; `before` a line's number. Two queries.

    With them acts that belong to no unit, such as signing in, of whoever works or worked on these units; and for
    somebody whose units are all there are, everybody's and nobody's. What was only looked at is no act.
    """
    rows = TrailLine.objects.alias(bare=Replace("actor", DASH, NOTHING)).filter(
        Q(unit__in=[str(unit.uid) for unit in units]) | Q(unit="") & ~Q(outcome="read") & _theirs(units)
    )
    if before is not None:
        rows = rows.filter(pk__lt=before)
    found = list(rows.order_by("-pk")[:most])
    details = ClinicianDetails.objects.filter(clinician__uid__in={row.actor for row in found if row.actor})
    names = {str(uid): name for uid, name in details.order_by("number").values_list("clinician__uid", "name")}
    return [
        Line(row.pk, row.at, row.unit, names.get(row.actor, ""), row.role, row.verb, row.outcome, row.object)
        for row in found
    ]


def _theirs(units: Sequence[Unit]) -> Q:
    """Acts of those who hold or held a role there. A uid is compared without dashes: SQLite stores it so."""
    here = Membership.objects.filter(Q(unit__in=units) | Q(role__in=HOSPITAL_ROLES))
    uids = here.alias(said=Cast("clinician__uid", CharField())).values_list(Replace("said", DASH, NOTHING))
    others = Unit.objects.exclude(pk__in=[unit.pk for unit in units])
    return Q(bare__in=uids) | ~Q(Exists(others))


def counted() -> tuple[int, int, int]:
    """(lines, seals, lines that no seal holds yet) of the whole trail. Three queries."""
    waiting = TrailLine.objects.filter(pk__gt=sealed_to()).count()
    return TrailLine.objects.count(), Seal.objects.count(), waiting
