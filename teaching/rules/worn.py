"""The pouches a stoma has worn, one after the other: on when, off when, how each came to its end."""

from dataclasses import dataclass
from datetime import datetime

from teaching.rules.cautions import LEAK
from teaching.rules.due import changes_made
from teaching.rules.facts import Chart


@dataclass(frozen=True, slots=True)
class Pouch:
    """`off` None: still on. `ended` is a code of WEAR_ENDS, "" where nobody said; `track` where a leak had run."""

    on: datetime
    off: datetime | None = None
    ended: str = ""
    track: str = ""


def pouches(chart: Chart, stoma: str, now: datetime) -> tuple[Pouch, ...]:
    """Oldest first; the last is the one now on. The pouch before the first change written here is not known."""
    done = _changes(chart, stoma, now)
    found = []
    for place, (on, _) in enumerate(done):
        off, event = done[place + 1] if place + 1 < len(done) else (None, "")
        ended, track = how_ended(chart, event)
        found.append(Pouch(on, off, ended, track))
    return tuple(found)


def _changes(chart: Chart, stoma: str, now: datetime) -> list[tuple[datetime, str]]:
    """(when, event), oldest first; one an event, however many wrote it."""
    newest = {event: at for at, event in sorted(changes_made(chart, stoma, now))}
    return sorted((at, event) for event, at in newest.items())


def how_ended(chart: Chart, event: str) -> tuple[str, str]:
    """Of the pouch taken off at this event: a leak if any rater saw one, then whatever was written."""
    told = [(one.wear_end, one.leak_track) for one in chart.findings if one.event == event and one.wear_end]
    told += [(one.wear_end, "") for one in chart.care if one.event == event and one.wear_end]
    told.sort(key=lambda one: (one[0] != LEAK, not one[1], one))
    return told[0] if event and told else ("", "")
