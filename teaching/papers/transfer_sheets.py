"""From the content of a transfer form, and of a blank session form, to a PDF."""

from django.template.loader import render_to_string

from teaching.papers.blank_session import BlankSession
from teaching.papers.printing import on_sides, pdf_of
from teaching.papers.transfer import TransferForm

BLANK_SIZES = (9.5, 9.25, 9.0, 8.75, 8.5, 8.25, 8.0, 7.75, 7.5)  # pt


def transfer_pdf(paper: TransferForm) -> bytes:
    """As many sides as the stomas and learners need; name and number on each."""
    return pdf_of(render_to_string("teaching/papers/transfer_form.html", {"paper": paper}))


def blank_session_pdf(paper: BlankSession) -> bytes:
    """One sheet, both sides, in the largest type that fits."""

    def html_at(size: float) -> str:
        return render_to_string("teaching/papers/blank_session.html", {"paper": paper, "size": size})

    return on_sides(html_at, BLANK_SIZES, 2)
