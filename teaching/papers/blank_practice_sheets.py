"""From a blank practice form to a PDF."""

from django.template.loader import render_to_string

from teaching.papers.blank_practice import BlankPractice
from teaching.papers.printing import one_side

SIZES = (11.0, 10.5, 10.0, 9.5, 9.0, 8.5, 8.0)  # pt


def blank_practice_pdf(paper: BlankPractice) -> bytes:
    """One side of A4, in the largest type that fits it."""

    def html_at(size: float) -> str:
        return render_to_string("teaching/papers/blank_practice.html", {"paper": paper, "size": size})

    return one_side(html_at, SIZES)
