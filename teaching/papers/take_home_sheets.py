"""From a take-home sheet's content to a PDF, in 14 or 18 pt print: nothing on it is smaller."""

from django.template.loader import render_to_string

from teaching.papers.printing import pdf_of
from teaching.papers.take_home import TEAM_FIRST, TakeHomeSheet
from teaching.papers.take_home_words import CHANGE, EMPTY, NOW, TODAY

STEPS = (EMPTY, CHANGE)
WORDS = {"team_first": TEAM_FIRST, "now": NOW, "today": TODAY, "steps": STEPS}


def take_home_pdf(paper: TakeHomeSheet) -> bytes:
    return pdf_of(render_to_string("teaching/papers/take_home.html", {"paper": paper, **WORDS}))
