"""The handover's twins: what it says is already there; session, user, one trail line and the drawing are the same."""

from django.shortcuts import render
from django.urls import include, path

from teaching.access.guards import actor_of
from teaching.papers.printing import pdf_of
from teaching.papers.views import inline
from teaching.record.trail import leave_read_line

# Filled once by the test: unit, stay, the paper's whole HTML, the page's own object.
CONSTANT = {}


def paper_twin(request):
    _read(request)
    return inline(pdf_of(CONSTANT["html"]), "static.pdf")


def page_twin(request):
    _read(request)
    return render(request, "teaching/bedside/handover.html", {"page": CONSTANT["page"], "stay": CONSTANT["stay"]})


def _read(request):
    assert request.user.is_authenticated
    request.unit = CONSTANT["unit"]
    leave_read_line(actor=actor_of(request), verb="print_handover", unit=request.unit)


urlpatterns = [
    path("paper-twin/", paper_twin, name="paper-twin"),
    path("page-twin/", page_twin, name="page-twin"),
    path("", include("ostomy_teach.urls")),
]
