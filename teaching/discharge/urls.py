"""Addresses of the room of going home."""

from django.urls import path

from teaching.discharge import arrangement_views as arrangements
from teaching.discharge import call_views, going_home_views, readiness_views

urlpatterns = [
    path("going-home/", going_home_views.everybody_going_home, name="everybody-going-home"),
    path("units/<uuid:unit>/going-home/", going_home_views.going_home, name="going-home"),
    path("units/<uuid:unit>/going-home/weekend/", going_home_views.weekend, name="weekend"),
    path("stays/<uuid:stay>/readiness/", readiness_views.readiness, name="readiness"),
    path("stays/<uuid:stay>/arrangements/<slug:code>/", arrangements.arrange, name="arrange"),
    path("stays/<uuid:stay>/visits/new/", arrangements.visit, name="new-visit"),
    path("stays/<uuid:stay>/visits/<uuid:key>/", arrangements.visit, name="visit"),
    path("stays/<uuid:stay>/appointments/new/", arrangements.appointment, name="new-appointment"),
    path("stays/<uuid:stay>/appointments/<uuid:key>/", arrangements.appointment, name="appointment"),
    path("units/<uuid:unit>/calls/", call_views.calls, name="calls"),
    path("stays/<uuid:stay>/call/", call_views.call, name="call"),
]
