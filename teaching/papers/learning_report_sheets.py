"""From the content of a learning report to a PDF."""

from django.template.loader import render_to_string

from teaching.papers.learning_report import LearningReport
from teaching.papers.printing import pdf_of


def learning_report_pdf(paper: LearningReport) -> bytes:
    return pdf_of(render_to_string("teaching/papers/learning_report.html", {"paper": paper}))
