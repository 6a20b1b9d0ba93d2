"""Topics: explained in own words, asked and not yet, told and not asked back, not told."""

from datetime import datetime

from teaching.rules.facts import Chart
from teaching.rules.handover.parts import Line
from teaching.rules.handover.steps import titles
from teaching.rules.huddle import when
from teaching.rules.standing import Standing
from teaching.rules.topics import NOT_YET, OWN_WORDS, TOLD


def talk(chart: Chart, rows: list[Standing], label: str, now: datetime) -> list[Line]:
    own = [one for one in rows if one.held]
    not_yet = [one for one in rows if not one.held and _last(one) == NOT_YET]
    early = [one for one in rows if not one.held and _last(one) == OWN_WORDS]
    told = [one for one in rows if not one.held and _last(one) == TOLD]
    rest = [one for one in rows if one not in own and one not in (*not_yet, *early, *told)]
    lines = [Line(f"{len(own)} of {len(rows)} explained in own words", label)]
    if own:
        lines.append(Line(f"in own words: {_dated(chart, own, now)}", mark=OWN_WORDS))
    if not_yet:
        lines.append(Line(f"asked, not yet in own words: {_dated(chart, not_yet, now)}", mark=NOT_YET))
    if early:
        lines.append(Line(f"said back, to be asked once more: {_dated(chart, early, now)}", mark=OWN_WORDS))
    if told:
        lines.append(Line(f"told, ask back: {_dated(chart, told, now)}", mark=TOLD))
    if rest:
        lines.append(Line(f"not told yet: {titles(rest, rows)}", brief=False))
    return lines


def _last(one: Standing) -> str:
    return one.last.answer if one.last else ""


def _dated(chart: Chart, rows: list[Standing], now: datetime) -> str:
    """Titles with the moment; those of one moment share it."""
    together: dict[str, list[str]] = {}
    for one in rows:
        at = one.evidence[-1].at if one.evidence else one.last.at if one.last else None
        together.setdefault(when(at, chart.ward, now) if at else "", []).append(one.row.item.title)
    return "; ".join(f"{'; '.join(names)}{f' ({at})' if at else ''}" for at, names in together.items())
