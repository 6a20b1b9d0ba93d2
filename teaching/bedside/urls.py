"""Addresses of the bedside room. No name or number of a person in any of them."""

from django.urls import path

from teaching.bedside.light import light

urlpatterns = [
    path("light/", light, name="light"),
]
