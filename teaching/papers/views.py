"""Papers to print, straight into the browser: no copy is kept, and no file is named after a person."""

from django.http import HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.papers.read_huddle import read_huddle
from teaching.papers.sheets import huddle_pdf


@guard("print_huddle")
@require_safe
def huddle_list(request, unit):
    paper = read_huddle(unit, timezone.now(), name_of(request.user))
    return inline(huddle_pdf(paper), "huddle-list.pdf")


def inline(pdf: bytes, filename: str) -> HttpResponse:
    """A PDF shown in the browser, named after the kind of paper."""
    answer = HttpResponse(pdf, content_type="application/pdf")
    answer["Content-Disposition"] = f'inline; filename="{filename}"'
    return answer
