"""Sizes and wear in sentences: what a stoma wears, the last change, the next, the last size."""

from datetime import datetime

from teaching.bedside.band import stoma_name
from teaching.rules.checklist import kit_at
from teaching.rules.due import NextChange
from teaching.rules.facts import Chart
from teaching.rules.huddle import when
from teaching.rules.spoken import hours, kit_words


def wear(chart: Chart, changes: tuple[NextChange, ...], now: datetime) -> list[str]:
    return [sentence for change in changes for sentence in _stoma(chart, change, now)]


def _stoma(chart: Chart, change: NextChange, now: datetime) -> list[str]:
    stoma = chart.stoma(change.stoma)
    named = stoma_name(stoma).capitalize()
    kit = kit_at(chart, stoma.key, now)
    said = [f"{named}: {kit_words(kit)}." if kit else f"{named}: no pouch is written down yet."]
    if change.last:
        on = f"On since {when(change.last, chart.ward, now)}, {hours(now - change.last)}"
        said.append(f"{on}; {_due(chart, change.due, now)}.")
    elif kit:
        said.append("No change of it is recorded yet, so when the next is due is not known.")
    sized = [one for one in chart.findings if one.stoma == stoma.key and one.width_mm and one.height_mm]
    if sized:
        one = max(sized, key=lambda finding: finding.at)
        size = f"{one.width_mm:g} mm across, {one.height_mm:g} mm up and down"
        said.append(f"Measured {when(one.at, chart.ward, now)}: {size}.")
    return said


def _due(chart: Chart, due: datetime | None, now: datetime) -> str:
    if due is None:
        return "nobody has said how often it is changed"
    return f"{'was due' if due < now else 'due'} {when(due, chart.ward, now)}"
