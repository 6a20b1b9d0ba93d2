"""Papers, each under the place or person it is about."""

from django.urls import path

from teaching.papers import views

urlpatterns = [
    path("shift/<uuid:unit>/huddle.pdf", views.huddle_list, name="huddle-list"),
]
