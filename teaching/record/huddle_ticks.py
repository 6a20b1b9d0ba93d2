"""Who teaches in a shift, ticked at the huddle; the newest tick of each person wins."""

from collections.abc import Iterable, Mapping
from datetime import date

from teaching.models import HuddleTick, Unit
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.places import ward_of
from teaching.record.writing import done, next_number, one_at_a_time, writing


def tick_huddle(
    *, actor: Actor, unit: Unit, day: date, shift: str, may_teach: Mapping[int, bool]
) -> list[HuddleTick]:
    """All ticks of one shift (its local day and name) at once, by clinicians' keys; only what changed is stored."""
    ticker, faults = somebody(actor), Faults()
    faults.word("shift", shift, [each.name for each in ward_of(unit).shifts])
    faults.stop()
    made = []
    with writing():
        one_at_a_time("huddle", str(unit.uid), day.isoformat(), shift)
        stands = ticked(unit, [day]).get((day, shift), frozenset())
        for key, teaches in may_teach.items():
            if teaches == (key in stands):
                continue
            number = next_number(HuddleTick, unit=unit, day=day, shift=shift, clinician=key)
            made.append(
                HuddleTick.objects.create(
                    unit=unit, day=day, shift=shift, clinician_id=key, may_teach=teaches, by=ticker, number=number
                )
            )
        done(actor, "tick_huddle", made[0] if made else "", unit=unit)
    return made


def ticked(unit: Unit, days: Iterable[date]) -> dict[tuple[date, str], frozenset[int]]:
    """Who is ticked to teach, by (local day, shift): clinicians' keys. One query."""
    rows = HuddleTick.objects.filter(unit=unit, day__in=list(days)).order_by("number")
    newest = {
        (day, shift, who): teaches
        for day, shift, who, teaches in rows.values_list("day", "shift", "clinician", "may_teach")
    }
    found: dict[tuple[date, str], set[int]] = {}
    for (day, shift, who), teaches in newest.items():
        if teaches:
            found.setdefault((day, shift), set()).add(who)
    return {key: frozenset(who) for key, who in found.items()}
