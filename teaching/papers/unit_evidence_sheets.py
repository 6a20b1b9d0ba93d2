"""From the content of a unit's evidence to a PDF."""

from django.template.loader import render_to_string

from teaching.papers.printing import pdf_of
from teaching.papers.unit_evidence import UnitEvidence


def unit_evidence_pdf(paper: UnitEvidence) -> bytes:
    """A4 across: who, what, when, by whom and the requirement stand in one row."""
    return pdf_of(render_to_string("teaching/papers/unit_evidence.html", {"paper": paper}))
