"""R9: what caps a result: a call-now caution not settled; a pouch that leaked within a day, until one held a day."""

from datetime import datetime

from teaching.rules.cautions import CALL_NOW, LEAK
from teaching.rules.due import changes_made
from teaching.rules.facts import Care, Caution, Chart, Finding
from teaching.rules.lines import Policy


def blocking_cautions(cautions: tuple[Caution, ...]) -> tuple[Caution, ...]:
    """Those of the running ones that nobody goes home with, told or not."""
    return tuple(one for one in cautions if one.list == CALL_NOW)


def short_wear(chart: Chart, stoma: str, policy: Policy, now: datetime) -> tuple[datetime, datetime] | None:
    """When a pouch leaked that had held less than a day, and when the one now on will have; None: nothing caps.

    The cap lasts until some pouch since has held a day. A pouch whose beginning nobody wrote down is not held
    to have been short.
    """
    leaked = _leaks(chart, stoma, now)
    if not leaked:
        return None
    put_on: dict[str, datetime] = dict(leaked)
    for at, event in changes_made(chart, stoma, now):
        put_on[event] = min(at, put_on.get(event, at))
    capped: datetime | None = None
    began: datetime | None = None
    for at, event in sorted((at, event) for event, at in put_on.items()):
        if began is not None:
            if at - began >= policy.wear_holds:
                capped = None
            elif event in leaked:
                capped = at
        began = at
    if capped is None or began is None or now - began >= policy.wear_holds:
        return None
    return capped, began + policy.wear_holds


def _leaks(chart: Chart, stoma: str, now: datetime) -> dict[str, datetime]:
    """The events in which a pouch was found to have leaked."""
    written: list[Care | Finding] = [*chart.care, *chart.findings]
    return {
        one.event: one.at for one in written if one.stoma == stoma and one.wear_end == LEAK and one.at <= now
    }
