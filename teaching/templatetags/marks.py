"""Marks of help: a small square with the answer's code in it, told apart by shape and line, never by colour.

06 filled, light digits. 05 filled with a cut corner. 04 thick outline. 03 lower half filled. 02 lower
quarter filled. 01 thin outline. 07, 10, 88 dashed. A decision carries a tick, a tick over a bar (not needed)
or a cross; a topic an open quote (told), a closed quote (own words) or open outlines (not yet). Practice
evidence has round corners.

All is drawn in `currentColor` with the code cut out where it is filled, so one drawing serves day, night and
black-and-white paper. A page defines its marks once (`mark_sheet`) and refers to them (`mark`); a paper draws
each whole (`mark_drawn`), since its library cannot refer across drawings.
"""

import re
from functools import cache

from django import template
from django.utils.html import format_html, format_html_join
from django.utils.safestring import mark_safe

from teaching.rules.vocabulary import ANSWERS
from teaching.templatetags.digits import DIGITS

register = template.Library()

FRAME = '<svg class="mark" viewBox="0 0 40 40" role="img"><title>{}</title>{}</svg>'
PRACTICE = "practice: on a model, or water in the pouch"
SQUARE = "M3 3H37V37H3Z"
ROUND = "M13 3H27A10 10 0 0 1 37 13V27A10 10 0 0 1 27 37H13A10 10 0 0 1 3 27V13A10 10 0 0 1 13 3Z"
CUT = "M3 3H27L37 13V37H3Z"
CUT_ROUND = "M13 3H27L37 13V27A10 10 0 0 1 27 37H13A10 10 0 0 1 3 27V13A10 10 0 0 1 13 3Z"
HALF = "M3 18H37V37H3Z"
HALF_ROUND = "M3 18H37V27A10 10 0 0 1 27 37H13A10 10 0 0 1 3 27Z"
QUARTER = "M3 29.5H37V37H3Z"
QUARTER_ROUND = "M3.3 29.5H36.7A10 10 0 0 1 27 37H13A10 10 0 0 1 3.3 29.5Z"
TICK = "M9 20.5L12 17.5L17.5 23L28.5 11L31.5 14L17.5 29Z"
CROSS = "M10 13L13 10L20 17L27 10L30 13L23 20L30 27L27 30L20 23L13 30L10 27L17 20Z"
BAR = "M11 31H29V34H11Z"
OPEN_QUOTE = "M18 13L14 21H18V28H9V21L13 13Z M31 13L27 21H31V28H22V21L26 13Z"
CLOSED_QUOTE = "M9 27L13 19H9V12H18V19L14 27Z M22 27L26 19H22V12H31V19L27 27Z"


def shifted(path, dx, dy, scale):
    """A digit's path moved into place: absolute commands M, L, H, V, Q, Z, as the font gives them."""
    def move(found):
        command, numbers = found[1], [float(number) for number in found[2].split()]
        if command == "V":
            moved = [y * scale + dy for y in numbers]
        else:
            moved = [number * scale + (dy if place % 2 else dx) for place, number in enumerate(numbers)]
        return command + " ".join(f"{number:.1f}".removesuffix(".0") for number in moved)

    return re.sub(r"([A-Z])([^A-Z]*)", move, path)


def digits(code, middle=20, largest=1.0):
    """The path of two digits side by side, centred across the square of 40 and on the height `middle`."""
    (wide, one), (wider, two) = DIGITS[code[0]], DIGITS[code[1]]
    gap = 2.2
    scale = min(largest, 27 / (wide + gap + wider))
    left = (40 - scale * (wide + gap + wider)) / 2
    base = middle + 8.5 * scale
    return shifted(one, left, base, scale) + shifted(two, left + scale * (wide + gap), base, scale)


def outline(shape, width, dashed=False):
    dash = mark_safe(' stroke-dasharray="5 3.5"') if dashed else ""
    drawn = '<path d="{}" fill="none" stroke="currentColor" stroke-width="{}"{}/>'
    return format_html(drawn, shape, width, dash)


def solid(*paths):
    """Filled where an odd number of the shapes lie over one another."""
    return format_html('<path fill-rule="evenodd" d="{}"/>', " ".join(paths))


@cache
def drawing(code, practice=False):
    """The inside of the mark's SVG, in a box of 40 by 40."""
    shape = ROUND if practice else SQUARE
    if code == "06":
        return solid(shape, digits(code))
    if code == "05":
        return solid(CUT_ROUND if practice else CUT, digits(code))
    if code == "04":
        return outline(shape, 5.5) + solid(digits(code))
    if code == "03":
        return outline(shape, 2) + solid(HALF_ROUND if practice else HALF, digits(code, 27.5, 0.8))
    if code == "02":
        return outline(shape, 2) + solid(QUARTER_ROUND if practice else QUARTER, digits(code))
    if code == "01":
        return outline(shape, 2) + solid(digits(code))
    if code in ("07", "10", "88"):
        return outline(shape, 2.5, dashed=True) + solid(digits(code))
    if code == "right":
        return solid(shape, TICK)
    if code == "not_needed":
        return outline(shape, 2) + solid(TICK) + solid(BAR)
    if code == "wrong":
        return outline(shape, 2) + solid(CROSS)
    if code == "told":
        return outline(shape, 2) + solid(OPEN_QUOTE)
    if code == "own_words":
        return solid(shape, CLOSED_QUOTE)
    if code == "not_yet":
        return outline(shape, 2, dashed=True) + outline(OPEN_QUOTE, 1.5)
    raise KeyError(f"There is no mark for the answer {code!r}.")


def name(code, practice=False):
    """What the mark says aloud: the code where it has two digits, its words, and practice where it is."""
    said = f"{code} {ANSWERS[code].words}" if code.isdigit() else ANSWERS[code].words
    return f"{said} ({PRACTICE})" if practice else said


def key_of(code, practice=False):
    return f"mark-{code}-practice" if practice else f"mark-{code}"


@register.simple_tag
def mark(code, practice=False):
    """A reference to a mark that `mark_sheet` has defined on this page."""
    return format_html(FRAME, name(code, practice), format_html('<use href="#{}"/>', key_of(code, practice)))


@register.simple_tag
def mark_drawn(code, practice=False):
    """A whole mark, for papers."""
    inside = format_html('<g fill="currentColor">{}</g>', drawing(code, practice))
    return format_html(FRAME, name(code, practice), inside)


@register.simple_tag
def mark_sheet(marks):
    """Definitions of the marks a page uses: an iterable of (code, practice)."""
    symbols = format_html_join(
        "", '<symbol id="{}" viewBox="0 0 40 40"><g fill="currentColor">{}</g></symbol>',
        ((key_of(*each), drawing(*each)) for each in sorted(set(marks))),
    )
    return format_html('<svg class="mark-sheet" aria-hidden="true" focusable="false">{}</svg>', symbols)
