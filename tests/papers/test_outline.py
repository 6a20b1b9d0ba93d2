"""The outline and its bars, read back from the PDF in millimetres; and which way round the marks stand."""

import io

import pdfplumber
import pytest

from teaching.papers.outline import BARS, outline
from teaching.papers.printing import pdf_of

POINT = 25.4 / 72
CLOSE = 0.05  # mm, the bound of the issue
PAGE = (
    '<html lang="en"><head><title>Size</title><style>@page {{ size: A4; margin: 10mm }} body {{ margin: 0 }}'
    " svg {{ display: block }}</style></head><body>{}</body></html>"
)


def printed(width, height):
    """(curves, straight lines, words) of the page, every measure in mm."""
    with pdfplumber.open(io.BytesIO(pdf_of(PAGE.format(outline(width, height))))) as pdf:
        (page,) = pdf.pages
        return page.curves, page.lines, page.extract_words()


def measured(curve):
    """(width, height) of a drawn curve from the extremes of its Bezier pieces."""
    xs, ys = [], []
    for start, one, two, end in pieces(curve):
        for step in range(201):
            t = step / 200
            for found, axis in ((xs, 0), (ys, 1)):
                found.append(
                    (1 - t) ** 3 * start[axis] + 3 * (1 - t) ** 2 * t * one[axis]
                    + 3 * (1 - t) * t**2 * two[axis] + t**3 * end[axis]
                )  # fmt: skip
    return (max(xs) - min(xs)) * POINT, (max(ys) - min(ys)) * POINT


def pieces(curve):
    here = None
    for command, *points in curve["path"]:
        if command == "c":
            yield here, *points
        if points:
            here = points[-1]


def the_opening(curves):
    (found,) = [curve for curve in curves if any(step[0] == "c" for step in curve["path"])]
    return found


@pytest.mark.parametrize(("width", "height"), [(34, 34), (34, 38), (8, 8), (41.5, 27), (60, 45), (100, 110)])
def test_the_outline_is_true_to_size(width, height):
    curves, _, _ = printed(width, height)
    assert measured(the_opening(curves)) == (pytest.approx(width, abs=CLOSE), pytest.approx(height, abs=CLOSE))


def test_the_measure_itself_would_see_a_tenth_of_a_millimetre():
    curves, _, _ = printed(34.1, 34)
    assert measured(the_opening(curves))[0] != pytest.approx(34, abs=CLOSE)


@pytest.mark.parametrize("opening", [(34, 38), (100, 110)])
def test_the_bars_are_true_to_size(opening):
    _, lines, _ = printed(*opening)
    lengths = sorted((line["x1"] - line["x0"]) * POINT for line in lines if line["x1"] - line["x0"] > 1)
    assert lengths == [pytest.approx(length, abs=CLOSE) for length in BARS] == [
        pytest.approx(50, abs=CLOSE), pytest.approx(100, abs=CLOSE),
    ]  # fmt: skip


def test_the_head_end_stands_above_the_opening_on_its_middle():
    curves, _, words = printed(34, 38)
    hole = the_opening(curves)
    (head,) = [word for word in words if word["text"] == "Head"]
    (end,) = [word for word in words if word["text"] == "end"]
    middle = (hole["x0"] + hole["x1"]) / 2
    assert end["bottom"] < hole["top"]
    assert (head["x0"] + end["x1"]) / 2 == pytest.approx(middle, abs=1)
    (mark,) = [curve for curve in curves if curve is not hole]
    assert mark["bottom"] < hole["top"]
    assert (mark["x0"] + mark["x1"]) / 2 == pytest.approx(middle, abs=0.2)


def test_seen_from_behind_the_persons_own_left_is_on_the_left():
    """Laid on the backing one looks from inside the body: the head end stays up, left and right change places."""
    curves, _, words = printed(34, 38)
    hole = the_opening(curves)
    (left,) = [word for word in words if word["text"] == "left"]
    (right,) = [word for word in words if word["text"] == "right"]
    assert left["x1"] < hole["x0"] < hole["x1"] < right["x0"]
    assert {word["text"] for word in words} >= {"This", "side", "up", "on", "the", "backing"}


@pytest.mark.parametrize(("width", "height"), [(7.9, 34), (34, 151), (-3, 34)])
def test_what_no_opening_can_measure_is_refused(width, height):
    with pytest.raises(ValueError, match="cannot be drawn"):
        outline(width, height)


def test_no_ellipse_is_drawn():
    """It would come out up to 0.22 mm wrong."""
    drawn = outline(34, 38)
    assert "<ellipse" not in drawn and "<circle" not in drawn and drawn.count("A17 19") == 2
