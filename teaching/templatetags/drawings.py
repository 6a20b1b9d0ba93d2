"""Drawings in lines and shapes: how the stoma's size went, with its opening; how each pouch was worn and ended.

Drawn in `currentcolor`, told apart by shape and never by colour, so that one drawing serves day, night and paper. Each
has a title that says what it shows, and a page sets the same figures beside it in a table.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from teaching.rules.fit import Size
from teaching.rules.vocabulary import WEAR_ENDS
from teaching.rules.worn import Pouch

register = template.Library()

WIDE = 300  # a phone shows it at its own size, so that no figure in it is too small
SHOWN = 8  # pouches; what came before stands in the record
ROW = 26
GROUND = 120
TOP = 14
FRAME = '<svg class="drawing" viewBox="0 0 {} {}" role="img" font-family="{}"><title>{}</title>{}</svg>'
FONTS = "Atkinson Hyperlegible Next, Ward, sans-serif"  # by the name of a page, and of a paper
FILLS = {"hollow": "none", "solid": "currentcolor"}  # a page's stylesheet says more; a paper knows these alone
TEXT = '<text x="{:.1f}" y="{:.1f}" text-anchor="{}">{}</text>'
LINE = '<polyline points="{}" fill="none" stroke="currentcolor" stroke-width="2"{}/>'
DASHED = mark_safe(' stroke-dasharray="6 4"')


def shape(pattern: str, *figures: float | str) -> SafeString:
    """A pattern of ours filled with numbers, or with words that are our own codes' words."""
    return mark_safe(pattern.format(*figures))


@dataclass(frozen=True)
class Scale:
    """From one span of values to a span of the drawing."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, value: float) -> float:
        share = (value - self.low) / (self.high - self.low) if self.high > self.low else 0.5
        return self.start + share * (self.end - self.start)


@register.simple_tag
def size_drawing(sizes: Sequence[Size]) -> SafeString:
    """Width as filled dots and a line, height as hollow squares and a dashed line, the cut opening as short bars."""
    measured = [one for one in sizes if one.width_mm is not None or one.height_mm is not None]
    if len(measured) < 2:
        return mark_safe("")
    lengths = [length for one in measured for length in _lengths(one) if length is not None]
    across = Scale(measured[0].at.timestamp(), measured[-1].at.timestamp(), 58, WIDE - 20)
    up = Scale(min(lengths) - 1, max(lengths) + 1, GROUND, TOP)
    drawn = [_axis(lengths, up)]
    for name, mark, dash in (("width_mm", _dot, ""), ("height_mm", _square, DASHED)):
        points = [(across(one.at.timestamp()), up(getattr(one, name))) for one in measured if getattr(one, name)]
        drawn.append(format_html(LINE, " ".join(f"{x:.1f},{y:.1f}" for x, y in points), dash))
        drawn += [mark(x, y) for x, y in points]
    cut = [(across(one.at.timestamp()), up(one.opening_width_mm)) for one in measured if one.opening_width_mm]
    drawn += [_bar(x, y) for x, y in cut]
    return format_html(FRAME, WIDE, GROUND + 14, FONTS, said_of_sizes(measured), mark_safe("".join(drawn)))


def said_of_sizes(measured: Sequence[Size]) -> str:
    first, last = measured[0], measured[-1]
    return (
        f"Size over {len(measured)} measurements: across from {_mm(first.width_mm)} to {_mm(last.width_mm)}, "
        f"up and down from {_mm(first.height_mm)} to {_mm(last.height_mm)}"
    )


def _lengths(size: Size) -> tuple[float | None, ...]:
    return size.width_mm, size.height_mm, size.opening_width_mm


def _mm(length: float | None) -> str:
    return "not measured" if length is None else f"{length:g} mm"


def _axis(lengths: Sequence[float], up: Scale) -> SafeString:
    """The largest and the smallest length that is drawn, each with a thin line."""
    drawn = ""
    for value in sorted({min(lengths), max(lengths)}):
        y = up(value)
        drawn += shape('<path d="M42 {:.1f}H{}" stroke="currentcolor" stroke-width="0.5"/>', y, WIDE)
        drawn += shape(TEXT, 38, y + 5, "end", f"{value:g}")
    return mark_safe(drawn)


def _dot(x: float, y: float) -> SafeString:
    return shape('<circle cx="{:.1f}" cy="{:.1f}" r="5" fill="currentcolor"/>', x, y)


def _square(x: float, y: float) -> SafeString:
    box = (
        '<rect x="{:.1f}" y="{:.1f}" width="9" height="9" class="hollow" fill="none" '
        'stroke="currentcolor" stroke-width="2"/>'
    )
    return shape(box, x - 4.5, y - 4.5)


def _bar(x: float, y: float) -> SafeString:
    return shape('<path d="M{:.1f} {:.1f}h18" stroke="currentcolor" stroke-width="4"/>', x - 9, y)


@register.simple_tag
def wear_drawing(pouches: Sequence[Pouch], now: datetime, still: str = "on now") -> SafeString:
    """A bar a pouch, as long as it was worn: solid where it ended as planned, open with a cross where it leaked.

    `still` is said of the one that has not come off: a paper that travels says it otherwise.
    """
    shown = list(pouches)[-SHOWN:]
    if not shown:
        return mark_safe("")
    longest = max((_worn(one, now) for one in shown), default=timedelta())
    scale = Scale(0, max(longest / timedelta(hours=1), 24), 0, WIDE - 175)
    lengths = [scale(_worn(one, now) / timedelta(hours=1)) for one in shown]
    drawn = "".join(_pouch(one, place, lengths[place], now, still) for place, one in enumerate(shown))
    return format_html(FRAME, WIDE, ROW * len(shown) + 6, FONTS, said_of_wear(shown), mark_safe(drawn))


def said_of_wear(shown: Sequence[Pouch]) -> str:
    leaks = sum(one.ended == "leak" for one in shown)
    ended = sum(one.off is not None for one in shown)
    return f"How long each of the last {len(shown)} pouches was worn; {leaks} of {ended} that came off leaked"


def _worn(pouch: Pouch, now: datetime) -> timedelta:
    return (pouch.off or now) - pouch.on


def _pouch(pouch: Pouch, place: int, length: float, now: datetime, still: str) -> SafeString:
    y = 4 + ROW * place
    look = {"leak": "hollow", "": "hollow"}.get(pouch.ended, "solid") if pouch.off else "hollow"
    line = 'stroke-width="2"' + (' stroke-dasharray="5 4"' if pouch.off is None else "")
    box = '<rect x="1" y="{}" width="{:.1f}" height="16" class="{}" fill="{}" stroke="currentcolor" {}/>'
    drawn = shape(box, y, max(length, 4), look, FILLS[look], line)
    if pouch.ended == "leak":
        x = max(length, 4) + 6
        cross = '<path d="M{0:.1f} {1}l10 10m0 -10l-10 10" stroke="currentcolor" stroke-width="3"/>'
        drawn += shape(cross, x, y + 3)
    hours = f"{_worn(pouch, now) // timedelta(hours=1)} h"
    said = still if pouch.off is None else WEAR_ENDS.get(pouch.ended, "not said")
    return drawn + shape(TEXT, max(length, 4) + 22, y + 13, "start", f"{hours}, {said}")
