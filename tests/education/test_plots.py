"""Labels of plots: in the house's own type, and none on top of another."""

import re
from itertools import combinations

import pytest

from teaching.templatetags.plots import SIZE, WIDE, curves_drawn, run_chart_drawn

TEXT = re.compile(r'<text x="([\d.]+)" y="([\d.]+)" font-size="\d+" text-anchor="(\w+)"[^>]*>([^<]+)</text>')
WIDEST = 0.62 * SIZE  # of a character, on average, in the house's type


def boxes(drawn):
    """(left, right, top, bottom) of every label, measured generously, by its words and place."""
    found = {}
    for x, y, anchor, words in TEXT.findall(drawn):
        wide, at, low = len(words) * WIDEST, float(x), float(y)
        left = {"start": at, "middle": at - wide / 2, "end": at - wide}[anchor]
        found[words, x, y] = (left, left + wide, low - 0.75 * SIZE, low + 0.25 * SIZE)
    return found


def on_each_other(drawn):
    return [
        (a[0], b[0])
        for (a, one), (b, other) in combinations(boxes(drawn).items(), 2)
        if one[0] < other[1] and other[0] < one[1] and one[2] < other[3] and other[2] < one[3]
    ]


@pytest.mark.parametrize("last", [1, 3, 6, 9, 12, 60, 61, 99, 120])
@pytest.mark.parametrize("ends", [(0.9, 0.1), (0.5, 0.5), (0.5, 0.46), (0.03, 0.0), (1.0, 1.0)])
def test_no_label_of_curves_stands_on_another(last, ends):
    named = zip(("independent", "left first"), ends, strict=True)
    curves = [(name, [(last / 2, end / 2), (last, end)]) for name, end in named]
    drawn = curves_drawn("Half were independent by day 8.", curves, "days")
    assert len(boxes(drawn)) >= 3 + 2 + 1 + 2  # shares, days, the word for them, the names
    assert on_each_other(drawn) == []
    assert all(left >= 0 and right <= WIDE for left, right, _, _ in boxes(drawn).values())


@pytest.mark.parametrize("months", [1, 2, 7, 12, 30])
def test_no_label_of_a_run_chart_stands_on_another(months):
    points = [(f"2026-{1 + number % 12:02}", number % 2) for number in range(months)]
    drawn = run_chart_drawn("By month", points, 0.5)
    assert on_each_other(drawn) == []
    assert all(left >= 0 and right <= WIDE for left, right, _, _ in boxes(drawn).values())


def test_labels_name_the_type_of_the_screen_and_of_the_paper():
    for drawn in (curves_drawn("a", [("one", [(1, 0.5)])], "days"), run_chart_drawn("b", [("2026-01", 0.5)], 0.5)):
        assert 'font-family="Atkinson Hyperlegible Next,Ward,' in drawn
