"""From a handover's content to a PDF: one page a person, in the largest type that fits it."""

from django.template.loader import render_to_string

from teaching.papers.handover import HandoverPaper
from teaching.papers.printing import pdf_of
SIZES = (10.5,)


def handover_pdf(paper: HandoverPaper) -> bytes:
    people = [(each, 10.5) for each in paper.people]
    return pdf_of(render_to_string("teaching/papers/handover.html", {"paper": paper, "people": people}))
