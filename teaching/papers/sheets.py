"""From content to a PDF, one function a paper: which template, which sizes of type."""

from django.template.loader import render_to_string

from teaching.papers.huddle import HuddleList
from teaching.papers.printing import one_side

# 11.5 to 7.5 pt. Below that nobody reads it on a ward at night: the list then takes a second side.
HUDDLE_SIZES = tuple(quarter / 4 for quarter in range(46, 29, -1))


def huddle_pdf(paper: HuddleList) -> bytes:
    """One side of A4, in the largest type that fits it."""

    def html_at(size: float) -> str:
        context = {"paper": paper, "size": size, "pad": round(size / 18, 2)}
        return render_to_string("teaching/papers/huddle_list.html", context)

    return one_side(html_at, HUDDLE_SIZES)
