"""Trail lines read back, newest first, and how many there are. Whether they hold is asked of `examining`."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from teaching.models import ClinicianDetails, Seal, TrailLine, Unit
from teaching.record.seals import sealed_to


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
    """At most so many lines about these units, newest first; `before` a line's number. Two queries."""
    rows = TrailLine.objects.filter(unit__in=[str(unit.uid) for unit in units])
    if before is not None:
        rows = rows.filter(pk__lt=before)
    found = list(rows.order_by("-pk")[:most])
    details = ClinicianDetails.objects.filter(clinician__uid__in={row.actor for row in found if row.actor})
    names = {str(uid): name for uid, name in details.order_by("number").values_list("clinician__uid", "name")}
    return [
        Line(row.pk, row.at, row.unit, names.get(row.actor, ""), row.role, row.verb, row.outcome, row.object)
        for row in found
    ]


def counted() -> tuple[int, int, int]:
    """(lines, seals, lines that no seal holds yet) of the whole trail. Three queries."""
    waiting = TrailLine.objects.filter(pk__gt=sealed_to()).count()
    return TrailLine.objects.count(), Seal.objects.count(), waiting
