"""From the content of a leaving against the plan to a PDF: a page for the record, then the short sheet in 14 pt."""

from django.template.loader import render_to_string

from teaching.papers.against_plan import WELCOME, AgainstPlan
from teaching.papers.printing import pdf_of
from teaching.papers.readiness_record import SUPPORTS
from teaching.papers.take_home_words import EMPTY, NOW, TODAY

WORDS = {"supports": SUPPORTS, "welcome": WELCOME, "now": NOW, "today": TODAY, "empty": EMPTY}


def against_plan_pdf(paper: AgainstPlan) -> bytes:
    return pdf_of(render_to_string("teaching/papers/against_plan.html", {"paper": paper, **WORDS}))
