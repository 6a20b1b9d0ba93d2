"""From a readiness record's content to a PDF."""

from django.template.loader import render_to_string

from teaching.papers.printing import pdf_of
from teaching.papers.readiness_record import LEVELS, NO_CUT_OFF, SUPPORTS, ReadinessRecord

WORDS = {"supports": SUPPORTS, "no_cut_off": NO_CUT_OFF, "levels": LEVELS}


def readiness_pdf(paper: ReadinessRecord) -> bytes:
    """A tagged PDF of A4 pages, signed or a draft."""
    return pdf_of(render_to_string("teaching/papers/readiness_record.html", {"paper": paper, **WORDS}))
