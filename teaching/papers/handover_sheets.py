"""From a handover's content to a PDF: one page a person, in the largest type that fits it."""

from collections.abc import Sequence

from django.template.loader import render_to_string

from teaching.papers.handover import HandoverPaper
from teaching.papers.printing import one_page_each
from teaching.rules.handover.parts import Handover

SIZES = (10.5, 9.75, 9.0, 8.25, 7.5)  # pt
# Letters that fill a page at each size but the last, measured: a first guess, so that a shift is laid out once.
FILLS = (3200, 3700, 4450, 4800)


def handover_pdf(paper: HandoverPaper) -> bytes:
    """A4, tagged. A person whose handover is longer than a page even in the smallest type takes a second."""

    def html_at(sizes: Sequence[float]) -> str:
        context = {"paper": paper, "people": list(zip(paper.people, sizes, strict=True))}
        return render_to_string("teaching/papers/handover.html", context)

    anchors = [f"person-{number}" for number in range(1, len(paper.people) + 1)]
    return one_page_each(html_at, anchors, SIZES, [_guess(each) for each in paper.people])


def _guess(person: Handover) -> int:
    letters = len(person.text) + sum(len(line.more) for part in person.parts for line in part.lines)
    letters += sum(len(line.words) for part in person.parts for line in part.lines if not line.brief)
    return sum(letters > fills for fills in FILLS)
