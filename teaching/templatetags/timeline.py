"""Chances to teach up to the planned day, drawn: one line a procedure, a filled mark where something may be shown."""

from django import template
from django.utils.html import format_html, format_html_join

from teaching.templatetags.drawings import FONTS

register = template.Library()

WIDE, LEFT, ROW, TOP = 720, 205, 32, 22


@register.simple_tag
def timeline_drawn(timeline):
    """An SVG with a title; `timeline` has hours, rows (name, hours) and ticks (hour, day)."""
    step = (WIDE - LEFT - 10) / max(timeline.hours, 1)
    height = TOP + ROW * len(timeline.rows)
    parts = [_tick(LEFT + hour * step, day, height) for hour, day in timeline.ticks]
    for number, row in enumerate(timeline.rows):
        y = TOP + number * ROW + ROW / 2
        parts.append(format_html('<text x="0" y="{}" font-size="15" fill="currentColor">{}</text>', y + 5, row.name))
        parts.append(
            format_html('<path d="M{} {}H{}" stroke="currentColor" stroke-width="0.6"/>', LEFT, y, WIDE - 4)
        )
        parts += [
            format_html('<circle cx="{}" cy="{}" r="6" fill="currentColor"/>', f"{LEFT + hour * step:.1f}", y)
            for hour in row.hours
        ]
    return format_html(
        '<svg class="cover" viewBox="0 0 {} {}" role="img" font-family="{}"><title>{}</title>{}</svg>',
        WIDE, height, FONTS, f"Chances to teach. {timeline.words}",
        format_html_join("", "{}", ((part,) for part in parts)),
    )  # fmt: skip


def _tick(x: float, day: str, height: int):
    return format_html(
        '<path d="M{} {}V{}" stroke="currentColor" stroke-width="0.5"/>'
        '<text x="{}" y="15" font-size="15" fill="currentColor">{}</text>',
        f"{x:.1f}", TOP - 3, height, f"{x + 3:.1f}", day,
    )  # fmt: skip
