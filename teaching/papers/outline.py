"""The 1:1 outline of an opening to cut, as SVG in millimetres, for the size page of the take-home sheet.

Which way round. The paper is laid on the flange's backing, printed side up, and traced. Whoever looks at the backing
looks at the flange from behind, as if from inside the body: the head end stays up and left and right change places.
So the person's own left stands on the LEFT of this drawing, although on somebody one is facing it is on the right.
A round or oval opening is the same either way; the marks are what says how it lies, and they are mirrored.

The outline is a path of two arcs: the PDF library draws an <ellipse> up to 0.22 mm wrong, a path within 0.015 mm.
"""

from dataclasses import dataclass
from html import escape

BARS = (50, 100)
LEAST, MOST = 8, 150
LINE = 0.3
PRINT = 4.95  # mm: 14 pt, the least on a sheet for home (RNIB clear print)
MARGIN = 12
HEAD_ROOM = 26
BAR_ROOM = 34
WIDEST_BAR = max(BARS)


@dataclass(frozen=True, slots=True)
class Box:
    """Where the drawing lies, mm from its own upper left corner: its size, and the middle of the opening."""

    width: float
    height: float
    middle_x: float
    middle_y: float


def box_of(width_mm: float, height_mm: float) -> Box:
    """The drawing around an opening of this width and height, with its marks and the two bars below it."""
    width = max(width_mm + 2 * (MARGIN + 14), WIDEST_BAR + 2 * MARGIN)
    return Box(width, HEAD_ROOM + height_mm + 10 + BAR_ROOM, width / 2, HEAD_ROOM + height_mm / 2)


def outline(width_mm: float, height_mm: float, *, title: str = "") -> str:
    """SVG of an opening `width_mm` across and `height_mm` up and down, at its true size. Raises ValueError.

    Give the opening to cut (the least of `rules.fit.opening`: a hole can be cut wider, never smaller), not the stoma.
    """
    for length in (width_mm, height_mm):
        if not LEAST <= length <= MOST:
            raise ValueError(f"An opening of {length:g} mm cannot be drawn; {LEAST} to {MOST} mm.")
    box = box_of(width_mm, height_mm)
    said = title or f"Opening to cut, {width_mm:g} mm across and {height_mm:g} mm up and down, at its true size"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="outline" width="{box.width:g}mm" height="{box.height:g}mm" '
        f'viewBox="0 0 {box.width:g} {box.height:g}" role="img"><title>{escape(said)}</title>'
        f'<g font-family="Atkinson Hyperlegible Next, sans-serif" font-size="{PRINT}" text-anchor="middle" fill="#000">'
        f"{_oval(box, width_mm, height_mm)}{_marks(box, width_mm, height_mm)}{_bars(box)}</g></svg>"
    )


def _oval(box: Box, width: float, height: float) -> str:
    """Two arcs from the left end over the head end to the right and back."""
    left, right = box.middle_x - width / 2, box.middle_x + width / 2
    arc = f"A{width / 2:g} {height / 2:g} 0 0 1"
    path = f"M{left:g} {box.middle_y:g}{arc} {right:g} {box.middle_y:g}{arc} {left:g} {box.middle_y:g}Z"
    return f'<path class="opening" d="{path}" fill="none" stroke="#000" stroke-width="{LINE}"/>'


def _marks(box: Box, width: float, height: float) -> str:
    """"Head end" above the opening with a mark that touches no line; own left on the left: see the module."""
    x, top = box.middle_x, box.middle_y - height / 2
    mark = f'<path class="head-end" d="M{x:g} {top - 9:g}L{x + 4:g} {top - 3:g}H{x - 4:g}Z" fill="#000"/>'
    beside = box.middle_y + 1.5
    words = (
        (x, 6, "This side up on the backing"),
        (x, top - 11, "Head end"),
        (x - width / 2 - 11, beside - 2.5, "own"),
        (x - width / 2 - 11, beside + 2.5, "left"),
        (x + width / 2 + 11, beside - 2.5, "own"),
        (x + width / 2 + 11, beside + 2.5, "right"),
    )
    return mark + "".join(f'<text x="{at_x:g}" y="{at_y:g}">{said}</text>' for at_x, at_y, said in words)


def _bars(box: Box) -> str:
    """Two bars to hold a ruler against: what does not measure so was printed at another size."""
    left, drawn = box.middle_x - WIDEST_BAR / 2, []
    for place, length in enumerate(BARS):
        y = box.height - BAR_ROOM + 10 + 13 * place
        ends = f"M{left:g} {y - 2:g}V{y + 2:g}M{left + length:g} {y - 2:g}V{y + 2:g}"
        drawn.append(
            f'<path class="bar" d="M{left:g} {y:g}H{left + length:g}" fill="none" stroke="#000" stroke-width="{LINE}"/>'
            f'<path d="{ends}" fill="none" stroke="#000" stroke-width="{LINE}"/>'
            f'<text x="{left + length / 2:g}" y="{y + 6:g}">{length} mm</text>'
        )
    return "".join(drawn)
