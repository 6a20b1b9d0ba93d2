"""Plots of a unit's figures as SVG: ink only, told apart by line and mark, each with a title and a table behind it."""

from collections.abc import Iterable, Sequence

from django import template
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

register = template.Library()

WIDE, HIGH = 720, 312
LEFT, RIGHT, TOP, BOTTOM = 58, 118, 16, 52
# The screen's family, then the paper's own names for the same type.
FONT = "Atkinson Hyperlegible Next,Ward,Ward Ext,sans-serif"
SIZE, LINE, AWAY = 15, 18, 12  # of type; from one label to the next; from what a label names
DASHES = ("", "7 4", "2 4")
Line = tuple[str, Sequence[tuple[float, float]]]


@register.simple_tag
def curves_drawn(title: str, curves: Sequence[Line], along: str) -> SafeString:
    """Stepped curves of shares from 0 to 1 over days; `curves` are (name, [(day, share)])."""
    last = max((day for _, points in curves for day, _ in points), default=1) or 1
    parts, ends = [_frame(), *_shares(), *_days(last, along)], []
    for number, (name, points) in enumerate(curves):
        path, share = f"M{_x(0, last)} {_y(0)}", 0.0
        for day, reached in points:
            path += f"H{_x(day, last)}V{_y(reached)}"
            share = reached
        path += f"H{_x(last, last)}"
        parts.append(_line(path, DASHES[number % len(DASHES)]))
        ends.append((_y(share) + 5, name))
    parts += [_text(WIDE - RIGHT + AWAY, at, name) for at, name in _apart(ends)]
    return _svg(title, parts)


@register.simple_tag
def run_chart_drawn(title: str, points: Sequence[tuple[str, float]], median: float) -> SafeString:
    """A point a month, joined, with the median as a dashed line; shares from 0 to 1."""
    last = max(len(points) - 1, 1)
    places = [(_x(number, last), _y(value)) for number, (_, value) in enumerate(points)]
    parts = [_frame(), *_shares(), _line(f"M{LEFT} {_y(median)}H{WIDE - RIGHT}", "7 4")]
    parts.append(_text(WIDE - RIGHT + AWAY, _y(median) + 5, "median"))
    parts.append(_line("M" + "L".join(f"{x} {y}" for x, y in places), ""))
    parts += [format_html('<circle cx="{}" cy="{}" r="5" fill="currentColor"/>', x, y) for x, y in places]
    every = len(points) // 6 + 1
    for number, (month, _) in enumerate(points):
        if number % every == 0:
            parts.append(_text(_x(number, last), HIGH - BOTTOM + 22, month, "middle"))
    return _svg(title, parts)


@register.simple_tag
def interval_drawn(title: str, low: float, value: float, high: float) -> SafeString:
    """One share with its interval, on a line from 0 to 100 percent."""
    across = [f"{6 + 228 * share:.1f}" for share in (low, value, high)]
    return format_html(
        '<svg class="interval" viewBox="0 0 240 24" role="img"><title>{}</title>'
        '<path d="M6 4V20M234 4V20M6 12H234" stroke="currentColor" stroke-width="0.6"/>'
        '<path d="M{} 12H{}" stroke="currentColor" stroke-width="4"/>'
        '<circle cx="{}" cy="12" r="6" fill="currentColor"/></svg>',
        title, across[0], across[2], across[1],
    )  # fmt: skip


def _x(value: float, last: float) -> str:
    return f"{LEFT + (WIDE - LEFT - RIGHT) * value / last:.1f}"


def _y(share: float) -> float:
    return round(TOP + (HIGH - TOP - BOTTOM) * (1 - share), 1)


def _frame() -> SafeString:
    return _line(f"M{LEFT} {TOP}V{HIGH - BOTTOM}H{WIDE - RIGHT}", "")


def _shares() -> Iterable[SafeString]:
    for share in (0, 0.5, 1):
        yield _text(LEFT - AWAY, _y(share) + 5, f"{share:.0%}", "end")


def _days(last: float, along: str) -> Iterable[SafeString]:
    step = max(1, round(last / 6))
    for day in range(0, int(last) + 1, step):
        yield _text(_x(day, last), HIGH - BOTTOM + 22, str(day), "middle")
    yield _text(WIDE - RIGHT, HIGH - BOTTOM + 22 + LINE, along, "end")


def _apart(ends: Sequence[tuple[float, str]]) -> list[tuple[float, str]]:
    """Labels at the ends of curves, from the highest down, each at least a line below the one before.

    Where they would run past the axis they are all moved up.
    """
    placed: list[tuple[float, str]] = []
    for at, name in sorted(ends):
        placed.append((max(at, placed[-1][0] + LINE) if placed else at, name))
    over = max(0.0, placed[-1][0] - (HIGH - BOTTOM + 5)) if placed else 0.0
    return [(round(at - over, 1), name) for at, name in placed]


def _line(path: str, dashes: str) -> SafeString:
    return format_html(
        '<path d="{}" fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray="{}"/>',
        path, dashes or "none",
    )  # fmt: skip


def _text(x: float | str, y: float, words: str, anchor: str = "start") -> SafeString:
    return format_html(
        '<text x="{}" y="{}" font-size="{}" text-anchor="{}" fill="currentColor">{}</text>', x, y, SIZE, anchor, words
    )


def _svg(title: str, parts: Sequence[SafeString]) -> SafeString:
    return format_html(
        '<svg class="plot" viewBox="0 0 {} {}" role="img" font-family="{}"><title>{}</title>{}</svg>',
        WIDE, HIGH, FONT, title, format_html_join("", "{}", ((part,) for part in parts)),
    )  # fmt: skip
