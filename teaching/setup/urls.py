"""Addresses of the set-up room."""

from django.urls import include, path

from teaching.setup import staff_views as staff
from teaching.setup.first_page import setup
from teaching.setup.unit_settings import unit_settings

member = [
    path("", staff.staff_member, name="staff-member"),
    path("roles/give/", staff.grant_role, name="grant-role"),
    path("roles/<slug:role>/take-back/", staff.revoke_role, name="revoke-role"),
    path("sign-in/open/", staff.open_account, name="open-account"),
    path("sign-in/close/", staff.close_account, name="close-account"),
    path("first-password/", staff.give_first_password, name="give-first-password"),
]
urlpatterns = [
    path("setup/", setup, name="setup"),
    path("setup/units/<uuid:unit>/staff/", staff.staff, name="staff"),
    path("setup/units/<uuid:unit>/staff/register/", staff.register_nurse, name="register-nurse"),
    path("setup/units/<uuid:unit>/staff/<uuid:clinician>/", include(member)),
    path("setup/units/<uuid:unit>/settings/", unit_settings, name="unit-settings"),
]
