"""A page's twin: the same template, session, user and one trail line, but constant data."""

from django.shortcuts import render
from django.urls import include, path

from teaching.access.guards import actor_of
from teaching.record.trail import leave_read_line

# What the twin shows: filled once by the test, with the page that the real view shows of the same unit.
CONSTANT = {}


def twin(request):
    assert request.user.is_authenticated
    request.actor = actor_of(request)
    leave_read_line(actor=request.actor, verb="see_shift", unit=CONSTANT["unit"])
    template = CONSTANT["template"]
    return render(request, template, {"page": CONSTANT["page"], "unit": CONSTANT["unit"]})


urlpatterns = [path("twin/", twin, name="twin"), path("", include("ostomy_teach.urls"))]
