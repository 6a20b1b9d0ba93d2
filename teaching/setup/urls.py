"""Addresses of the set-up room."""

from django.urls import include, path

from teaching.setup import staff_views as staff
from teaching.setup import stay_views as stays
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
    path("setup/units/<uuid:unit>/open-a-stay/", stays.open_stay, name="open-stay"),
    path("setup/stays/<uuid:stay>/", stays.stay_setup, name="stay-setup"),
    path("setup/stays/<uuid:stay>/stoma/", stays.add_stoma, name="add-stoma"),
    path("setup/stays/<uuid:stay>/helper/", stays.add_helper, name="add-helper"),
    path("setup/stomas/<uuid:stoma>/kit/", stays.fit_kit, name="fit-kit"),
    path("setup/learners/<uuid:learner>/<slug:whose>/<slug:answer>/", stays.record_consent, name="record-consent"),
]
