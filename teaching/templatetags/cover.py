"""The cover by hour, drawn: a strip a part, hours from left to right, told apart by fill and outline, not by colour.

Where everybody is drawn apart, the part stands above its strips, and what they come to together below them.
"""

from django import template
from django.utils.html import format_html, format_html_join

from teaching.rules.cover_said import TOGETHER, CoverDrawing
from teaching.templatetags.drawings import FONTS

register = template.Library()

WIDE, LEFT, ROW, TOP, STRIP = 720, 205, 32, 22, 20
ABOVE, APART = 24, 22  # a line that names the part, and a strip of one of them
LONGEST = 28  # letters that fit before the strips


@register.simple_tag
def cover_drawn(drawing: CoverDrawing):
    """An SVG with a title; covered hours are filled, bare ones a dashed empty box."""
    step = (WIDE - LEFT) / drawing.hours
    parts, y = [], TOP
    for row in drawing.rows:
        apart = row.who not in (row.name, TOGETHER)
        if row.part:
            parts.append(_label(y + 16, row.part, "bold"))
            y += ABOVE
        parts += _row(row, y, step, apart)
        y += APART if apart else ROW
    ticks = [_tick(LEFT + tick.hour * step, tick.day, y) for tick in drawing.ticks]
    return format_html(
        '<svg class="cover" viewBox="0 0 {} {}" role="img" font-family="{}"><title>{}</title>{}</svg>',
        WIDE, y, FONTS, f"Who is there, hour by hour. {drawing.words}",
        format_html_join("", "{}", ((part,) for part in ticks + parts)),
    )  # fmt: skip


def _tick(x: float, day: str, height: int):
    return format_html(
        '<path d="M{x} {top}V{height}" stroke="currentColor" stroke-width="0.5"/>'
        '<text x="{text}" y="15" font-size="15" fill="currentColor">{day}</text>',
        x=f"{x:.1f}", top=TOP - 3, height=height, text=f"{x + 3:.1f}", day=day,
    )  # fmt: skip


def _label(y: int, words: str, weight: str = "normal"):
    return format_html(
        '<text x="0" y="{}" font-size="15" font-weight="{}" fill="currentColor">{}</text>', y, weight, words
    )


def _row(row, top: int, step: float, apart: bool):
    """One of them alone is a thinner strip on a line; what is bare is shown of all of them together."""
    name = row.who if len(row.who) <= LONGEST else f"{row.who[: LONGEST - 3].rstrip(' ,')}..."
    yield _label(top + 16, name)
    if apart:
        yield format_html('<path d="M{} {}H{}" stroke="currentColor" stroke-width="0.5"/>', LEFT, top + 11, WIDE)
    for bar in row.bars:
        left, width = f"{LEFT + bar.first * step:.1f}", f"{max(bar.length * step - 0.4, 0.5):.1f}"
        if bar.kind == "covered":
            y, height = (top + 7, 8) if apart else (top + 4, STRIP - 7)
            yield format_html(
                '<rect x="{}" y="{}" width="{}" height="{}" fill="currentColor"/>', left, y, width, height
            )
        else:
            yield format_html(
                '<rect x="{}" y="{}" width="{}" height="{}" fill="none" stroke="currentColor" stroke-dasharray="4 3"/>',
                left, top + 1, width, STRIP,
            )  # fmt: skip
