"""Marks of where a nurse stands in a skill: circles told apart by shape and line, never by colour.

Not begun: dashed. Practising: lower half filled. Ready for sign-off: thick, with a dot. Signed off: filled, with a
tick. Due soon: filled, with the hands of a clock. Lapsed: a bar across. Withdrawn: a cross. The word always stands
beside it; squares are left to a person's level of help (`marks.py`).
"""

from functools import cache

from django import template
from django.utils.html import format_html, format_html_join
from django.utils.safestring import mark_safe

from teaching.rules.vocabulary import SKILL_STATES

register = template.Library()

CIRCLE = "M20 3A17 17 0 0 1 20 37A17 17 0 0 1 20 3Z"
LOWER_HALF = "M3 20H37A17 17 0 0 1 3 20Z"
DOT = "M20 14A6 6 0 0 1 20 26A6 6 0 0 1 20 14Z"
TICK = "M9 20.5L12 17.5L17.5 23L28.5 11L31.5 14L17.5 29Z"
HANDS = "M18 9H22V19H30V23H18Z"
BAR = "M9 28.5L28.5 9L31 11.5L11.5 31Z"
CROSS = "M10 13L13 10L20 17L27 10L30 13L23 20L30 27L27 30L20 23L13 30L10 27L17 20Z"


def line(width: float, dashed: bool = False):
    dash = mark_safe(' stroke-dasharray="5 3.5"') if dashed else ""
    drawn = '<path d="{}" fill="none" stroke="currentcolor" stroke-width="{}"{}/>'
    return format_html(drawn, CIRCLE, width, dash)


def solid(*paths: str):
    """Filled where an odd number of the shapes lie over one another."""
    return format_html('<path fill-rule="evenodd" d="{}"/>', " ".join(paths))


@cache
def skill_drawing(state: str):
    """The inside of the mark's SVG, in a box of 40 by 40."""
    return {
        "not begun": line(2, dashed=True),
        "practising": line(2) + solid(LOWER_HALF),
        "ready for sign-off": line(5) + solid(DOT),
        "signed off": solid(CIRCLE, TICK),
        "due soon": solid(CIRCLE, HANDS),
        "lapsed": line(2) + solid(BAR),
        "withdrawn": line(2) + solid(CROSS),
    }[state]


@cache
def key_of(state: str) -> str:
    return f"skill-{state.replace(' ', '-')}"


@register.simple_tag
@cache
def skill_mark(state: str):
    """A reference to a mark that `skill_mark_sheet` has defined; silent, since the word stands beside it."""
    return format_html(
        '<svg class="mark" viewBox="0 0 40 40" aria-hidden="true" focusable="false"><use href="#{}"/></svg>',
        key_of(state),
    )


@register.simple_tag
def skill_mark_sheet():
    """Definitions of all the states' marks, once a page."""
    symbols = format_html_join(
        "", '<symbol id="{}" viewBox="0 0 40 40"><g fill="currentcolor">{}</g></symbol>',
        ((key_of(state), skill_drawing(state)) for state in SKILL_STATES),
    )
    return format_html('<svg class="mark-sheet" aria-hidden="true" focusable="false">{}</svg>', symbols)
