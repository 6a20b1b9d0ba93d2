"""The cover by hour, drawn: a strip a part, hours from left to right, told apart by fill and outline, not by colour."""

from django import template
from django.utils.html import format_html, format_html_join

from teaching.rules.cover_said import CoverDrawing

register = template.Library()

WIDE, LEFT, ROW, TOP, STRIP = 720, 205, 32, 22, 20


@register.simple_tag
def cover_drawn(drawing: CoverDrawing):
    """An SVG with a title; covered hours are filled, bare ones a dashed empty box."""
    step = (WIDE - LEFT) / drawing.hours
    height = TOP + ROW * len(drawing.rows)
    parts = [
        *(_tick(LEFT + tick.hour * step, tick.day, height) for tick in drawing.ticks),
        *(part for number, row in enumerate(drawing.rows) for part in _row(row, TOP + number * ROW, step)),
    ]
    return format_html(
        '<svg class="cover" viewBox="0 0 {} {}" role="img"><title>{}</title>{}</svg>',
        WIDE, height, f"Who is there, hour by hour. {drawing.words}", format_html_join("", "{}", ((p,) for p in parts)),
    )  # fmt: skip


def _tick(x: float, day: str, height: int):
    return format_html(
        '<path d="M{x} {top}V{height}" stroke="currentColor" stroke-width="0.5"/>'
        '<text x="{text}" y="15" font-size="15" fill="currentColor">{day}</text>',
        x=f"{x:.1f}", top=TOP - 3, height=height, text=f"{x + 3:.1f}", day=day,
    )  # fmt: skip


def _row(row, top: int, step: float):
    yield format_html(
        '<text x="0" y="{}" font-size="15" fill="currentColor">{}</text>', top + 16, row.name
    )
    for bar in row.bars:
        left, width = LEFT + bar.first * step, bar.length * step
        if bar.kind == "covered":
            yield format_html(
                '<rect x="{}" y="{}" width="{}" height="{}" fill="currentColor"/>',
                f"{left:.1f}", top + 4, f"{max(width - 0.4, 0.5):.1f}", STRIP - 7,
            )  # fmt: skip
        else:
            yield format_html(
                '<rect x="{}" y="{}" width="{}" height="{}" fill="none" stroke="currentColor" stroke-dasharray="4 3"/>',
                f"{left:.1f}", top + 1, f"{max(width - 0.4, 0.5):.1f}", STRIP,
            )  # fmt: skip
