"""Who teaches which planned change of a unit, as a page, and the huddle list, read it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from teaching.models import Unit
from teaching.record.arranged import booked_on
from teaching.record.huddle_ticks import ticked
from teaching.record.nurses import nurses
from teaching.rules.arranged import Appointment
from teaching.rules.board import BoardRow
from teaching.rules.competence_facts import Nurse
from teaching.rules.huddle_cover import Cover, cover, holder, planned_changes, soon
from teaching.rules.lines import Policy
from teaching.rules.ward import Ward

A_DAY = timedelta(days=1)


@dataclass(frozen=True)
class Teaching:
    """`ticks` as clinicians' keys by (local day, shift); `known` by key; `names` by uid; `booked` by stay."""

    ticks: Mapping[tuple[date, str], frozenset[int]]
    known: Mapping[int, Nurse]
    names: Mapping[str, str]
    booked: Mapping[str, Sequence[Appointment]]
    covers: tuple[Cover, ...]


def who_teaches_on(
    unit: Unit,
    rows: Iterable[BoardRow],
    people: Mapping[int, str],
    policy: Policy,
    ward: Ward,
    now: datetime,
    *,
    days: Iterable[date] = (),
    also: Iterable[int] = (),
) -> Teaching:
    """`people` are those who teach there, {key: uid}; `days` and nurses (`also`) are read besides.

    Eight queries, however many people and nurses. Whoever no longer works there teaches nothing, ticked or booked.
    """
    ahead = {ward.date(now) + n * A_DAY for n in range(-1, policy.huddle_ahead.days + 1)}
    ticks, booked = ticked(unit, {*days, *ahead}), booked_on(unit)
    known = nurses(sorted({*people, *also}))
    named = {shift: {people[key] for key in keys if key in people} for shift, keys in ticks.items()}
    holders = {uid: holder(uid, known[key]) for key, uid in people.items()}
    changes = soon(planned_changes(rows, booked, ward, now), policy, now)
    covers = cover(changes, named, holders, ward, now)
    return Teaching(ticks, known, {uid: known[key].name for key, uid in people.items()}, booked, covers)
