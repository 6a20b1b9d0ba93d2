"""The trail, for a record auditor: whether it is as it was written, and who did what on the auditor's own units."""

from dataclasses import dataclass

from django.http import Http404
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.scope import units_for
from teaching.record.examining import examine
from teaching.record.trail_lines import Line, counted, lines_of
from teaching.rules.huddle import spoken_date
from teaching.rules.spoken import how_many
from teaching.rules.vocabulary import ROLES
from teaching.rules.ward import Ward
from teaching.setup.trail_words import said_of

SHOWN = 100  # lines at once


@dataclass(frozen=True)
class Row:
    """`who` with the roles the act leaned on, `act` in plain words with what came of it."""

    at: str
    who: str
    act: str
    object: str


@dataclass(frozen=True)
class Examined:
    """What an examination of the whole trail said, and when."""

    said: str
    faults: list[str]


@guard("see_trail")
@require_safe
def trail(request):
    units = list(units_for(request.user, "see_trail"))
    found = lines_of(units, _before(request.GET.get("before", "")), SHOWN + 1)
    wards = {str(unit.uid): Ward(unit.zone) for unit in units}
    no_unit = next(iter(wards.values()))  # its acts are told on the clock of the first of them
    page = {
        "units": [unit.name for unit in units],
        "rows": [_row(line, wards.get(line.unit, no_unit)) for line in found[:SHOWN]],
        "before": found[SHOWN - 1].number if len(found) > SHOWN else None,
        "examined": _examined() if "examine" in request.GET else None,
    }
    return render(request, "teaching/setup/trail.html", page)


def _before(said: str) -> int | None:
    if not said:
        return None
    if not said.isascii() or not said.isdecimal() or len(said) > 18:
        raise Http404
    return int(said)


def _examined() -> Examined:
    faults, (lines, seals, waiting) = examine(), counted()
    holds = "It is as it was written" if not faults else "It is not as it was written"
    at = f"{timezone.now():%Y-%m-%d %H:%M} UTC"
    said = f"{how_many(lines, 'line')}, {how_many(seals, 'seal')}, {how_many(waiting, 'line')} not sealed yet"
    return Examined(f"{holds}: {said}. Examined {at}.", faults)


def _row(line: Line, ward: Ward) -> Row:
    here = ward.local(line.at)
    roles = [ROLES.get(role, role) for role in line.role.split(",") if role]
    return Row(
        at=f"{spoken_date(here.date())} {here:%Y %H:%M:%S}",
        who=", ".join([line.who or "nobody signed in", *roles]),
        act=said_of(line.verb, line.outcome),
        object=line.object,
    )
