"""The arrangement rows of a stay as facts: arrangements, and the two of which there may be several."""

from collections import defaultdict
from collections.abc import Sequence
from operator import attrgetter
from typing import Any

from teaching.models import Arrangement as ArrangementRow
from teaching.models import Unit
from teaching.rules.arranged import TEACHING, VISIT
from teaching.rules.board import ON_THE_BOARD
from teaching.rules.facts import Appointment, Arrangement, Visit


def arranged(found: Sequence[Any]) -> dict[str, tuple[Any, ...]]:
    """The newest of each code and key, sorted into the chart's own fields."""
    newest = {(row.code, row.key): row for row in sorted(found, key=attrgetter("number"))}
    return {
        "visits": tuple(_visit(row) for row in newest.values() if row.code == VISIT),
        "appointments": tuple(_appointment(row) for row in newest.values() if row.code == TEACHING),
        "arrangements": tuple(_arrangement(row) for row in newest.values() if row.code not in (VISIT, TEACHING)),
    }


def _arrangement(row: Any) -> Arrangement:
    return Arrangement(
        row.code, row.state, row.happened_at, row.value, row.due_at, tuple(sorted(row.details.items()))
    )


def _visit(row: Any) -> Visit:
    told = row.details
    return Visit(
        key=row.key, at=row.due_at, state=row.state, for_change=bool(told.get("for_change")),
        accepted_by=told.get("accepted_by", ""), service=told.get("service", ""), stoma=told.get("stoma", ""),
    )


def _appointment(row: Any) -> Appointment:
    told = row.details
    return Appointment(
        key=row.key, at=row.due_at, state=row.state, procedure=told.get("procedure", "change"),
        learners=tuple(told.get("learners", ())), stoma=told.get("stoma", ""), teacher=told.get("teacher", ""),
        may_teach=told.get("may_teach"), interpreter=bool(told.get("interpreter")),
        practice=bool(told.get("practice")), aim=told.get("aim", ""), why=row.value,
    )


def booked_on(unit: Unit) -> dict[str, tuple[Appointment, ...]]:
    """Teaching appointments of everybody now on a unit, in whatever state, by stay. One query."""
    rows = ArrangementRow.objects.filter(
        code=TEACHING, stay__now__unit=unit, stay__now__state__in=ON_THE_BOARD
    ).order_by("number")
    newest = {(row.stay_id, row.key): row for row in rows.select_related("stay")}
    found: dict[str, list[Appointment]] = defaultdict(list)
    for row in newest.values():
        found[str(row.stay.uid)].append(_appointment(row))
    return {stay: tuple(each) for stay, each in found.items()}
