"""Addresses of signing in, of the first page, and of the watchers."""

from django.urls import path

from teaching.access.health import healthy, ready
from teaching.access.sign_in import change_password, home, sign_in, sign_out, still_here

urlpatterns = [
    path("", home, name="home"),
    path("sign-in/", sign_in, name="sign-in"),
    path("sign-out/", sign_out, name="sign-out"),
    path("password/", change_password, name="change-password"),
    path("still-here/", still_here, name="still-here"),
    path("healthy", healthy, name="healthy"),
    path("ready", ready, name="ready"),
]
