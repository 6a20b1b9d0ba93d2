"""From a size page's content to a PDF in millimetres."""

from django.template.loader import render_to_string
from django.utils.safestring import mark_safe

from teaching.papers.outline import outline
from teaching.papers.printing import pdf_of
from teaching.papers.size_page import SizePage


def size_page_pdf(paper: SizePage) -> bytes:
    drawn = mark_safe(outline(paper.wide, paper.high))
    return pdf_of(render_to_string("teaching/papers/size_page.html", {"paper": paper, "drawn": drawn}))
