"""From a cover sheet's content to a PDF."""

from django.template.loader import render_to_string

from teaching.papers.changed_since import CoverSheet
from teaching.papers.printing import pdf_of


def cover_pdf(sheet: CoverSheet) -> bytes:
    return pdf_of(render_to_string("teaching/papers/cover_sheet.html", {"paper": sheet}))
