"""The addresses of the house: each room brings its own."""

from django.urls import include, path

urlpatterns = [
    path("", include("teaching.access.urls")),
    path("", include("teaching.setup.urls")),
    path("", include("teaching.bedside.urls")),
    path("", include("teaching.discharge.urls")),
    path("", include("teaching.education.urls")),
    path("", include("teaching.papers.urls")),
]

handler400 = "ostomy_teach.error_pages.bad_request"
handler403 = "ostomy_teach.error_pages.not_allowed"
handler404 = "ostomy_teach.error_pages.not_found"
handler500 = "ostomy_teach.error_pages.failed"
