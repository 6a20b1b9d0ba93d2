"""Addresses of the room of going home."""

from django.urls import path

from teaching.discharge import arrangement_views as arrangements

urlpatterns = [
    path("stays/<uuid:stay>/arrangements/<slug:code>/", arrangements.arrange, name="arrange"),
    path("stays/<uuid:stay>/visits/new/", arrangements.visit, name="new-visit"),
    path("stays/<uuid:stay>/visits/<uuid:key>/", arrangements.visit, name="visit"),
    path("stays/<uuid:stay>/teaching/new/", arrangements.appointment, name="new-appointment"),
    path("stays/<uuid:stay>/teaching/<uuid:key>/", arrangements.appointment, name="appointment"),
]
