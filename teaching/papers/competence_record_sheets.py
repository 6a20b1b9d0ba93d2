"""From the content of a competence record, and of a pocket card, to a PDF."""

from django.template.loader import render_to_string

from teaching.papers.competence_record import CompetenceRecord
from teaching.papers.pocket_card import PocketCard
from teaching.papers.printing import pdf_of


def competence_record_pdf(paper: CompetenceRecord) -> bytes:
    return pdf_of(render_to_string("teaching/papers/competence_record.html", {"paper": paper}))


def pocket_card_pdf(card: PocketCard) -> bytes:
    """One card on one sheet, to cut out; printed at 100 %, not fitted to the page."""
    return pdf_of(render_to_string("teaching/papers/pocket_card.html", {"card": card}))
