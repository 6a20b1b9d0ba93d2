"""Addresses of the room of going home."""

from django.urls import path

from teaching.discharge import arrangement_views as arrangements
from teaching.discharge import call_views

urlpatterns = [
    path("stays/<uuid:stay>/arrangements/<slug:code>/", arrangements.arrange, name="arrange"),
    path("stays/<uuid:stay>/visits/new/", arrangements.visit, name="new-visit"),
    path("stays/<uuid:stay>/visits/<uuid:key>/", arrangements.visit, name="visit"),
    path("stays/<uuid:stay>/teaching/new/", arrangements.appointment, name="new-appointment"),
    path("stays/<uuid:stay>/teaching/<uuid:key>/", arrangements.appointment, name="appointment"),
    path("units/<uuid:unit>/calls/", call_views.calls, name="calls"),
    path("stays/<uuid:stay>/call/", call_views.call, name="call"),
]
