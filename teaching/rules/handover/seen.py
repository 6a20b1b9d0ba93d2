"""What was last seen of one stoma and its skin, and the newest output total from the fluid chart."""

from datetime import datetime

from teaching.rules.facts import Chart, Finding, Stoma
from teaching.rules.handover.parts import Line
from teaching.rules.huddle import when
from teaching.rules.vocabulary import (
    BLEEDING,
    COLOURS,
    EDGES,
    NOTICED_BY,
    SKIN,
    SKIN_REGIONS,
    STANDS,
    WETNESS,
)


def seen(chart: Chart, stoma: Stoma, now: datetime) -> list[Line]:
    named = f", {stoma.label}" if len(chart.stomas) > 1 else ""
    own = [one for one in chart.findings if one.stoma == stoma.key and one.at <= now]
    findings = sorted(own, key=lambda one: one.at)
    looks = [(one, _look(one)) for one in findings if _look(one)]
    skins = [(one, _skin(one)) for one in findings if one.skin]
    lines = [Line(_dated(chart, looks, now), f"Looked like{named}"), Line(_dated(chart, skins, now), f"Skin{named}")]
    totals = [one for one in chart.totals if one.stoma == stoma.key and one.until <= now]
    if totals:
        one = max(totals, key=lambda total: total.until)
        said = f"{one.ml:,} mL in the 24 hours to {when(one.until, chart.ward, now)}, from the fluid chart"
        lines.append(Line(said, f"Output{named}"))
    asked = [one for one in chart.nothing if one.stoma == stoma.key and one.at <= now]
    if asked and (since := max(asked, key=lambda one: one.at).since):
        lines.append(Line(f"nothing out since {when(since, chart.ward, now)}, as asked", f"Output{named}"))
    return lines


def _dated(chart: Chart, found: list[tuple[Finding, str]], now: datetime) -> str:
    if not found:
        return "not known, nothing is written down"
    one, said = found[-1]
    return f"{said} ({when(one.at, chart.ward, now)})"


def _look(one: Finding) -> str:
    said = [COLOURS.get(one.colour, ""), WETNESS.get(one.wet, ""), STANDS.get(one.stands, "")]
    said += [f"edge: {EDGES[one.edge]}"] if one.edge else []
    said += [f"bleeding: {BLEEDING[one.bleeding]}"] if one.bleeding else []
    return ", ".join(part for part in said if part)


def _skin(one: Finding) -> str:
    """Regions that are alike stand together; four alike are "all round"."""
    together: dict[str, list[str]] = {}
    for region, state in one.skin:
        together.setdefault(state, []).append(SKIN_REGIONS.get(region, region))
    said = [
        f"{'all round' if len(where) == len(SKIN_REGIONS) else ' and '.join(where)}: {SKIN.get(state, state)}"
        for state, where in together.items()
    ]
    noticed = f"; noticed by {NOTICED_BY[one.noticed_by]}" if one.noticed_by else ""
    return "; ".join(said) + noticed
