"""Addresses of the set-up room."""

from django.urls import include, path

from teaching.setup import policy_views as policy
from teaching.setup import staff_views as staff
from teaching.setup import stay_views as stays
from teaching.setup import unit_words as words
from teaching.setup.first_page import setup
from teaching.setup.learner_views import helper_hours, learning_needs
from teaching.setup.trail_page import trail
from teaching.setup.unit_settings import unit_settings
from teaching.setup.whereabouts import planned_home, stay_event

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
    path("trail/", trail, name="trail"),
    path("setup/units/<uuid:unit>/staff/", staff.staff, name="staff"),
    path("setup/units/<uuid:unit>/staff/register/", staff.register_nurse, name="register-nurse"),
    path("setup/units/<uuid:unit>/staff/<uuid:clinician>/", include(member)),
    path("setup/units/<uuid:unit>/settings/", unit_settings, name="unit-settings"),
    path("setup/units/<uuid:unit>/words/", words.unit_words, name="unit-words"),
    path("setup/units/<uuid:unit>/words/languages/", words.unit_languages, name="unit-languages"),
    path("setup/units/<uuid:unit>/words/phrases/<slug:language>/", words.unit_phrases, name="unit-phrases"),
    path("setup/units/<uuid:unit>/words/numbers/", words.unit_phones, name="unit-phones"),
    path("setup/units/<uuid:unit>/words/slots/", words.unit_slots, name="unit-slots"),
    path("setup/units/<uuid:unit>/thresholds/", policy.unit_policy, name="unit-policy"),
    path("setup/units/<uuid:unit>/thresholds/<slug:name>/", policy.policy_line, name="policy-line"),
    path("setup/units/<uuid:unit>/signs/<slug:name>/", policy.policy_sign, name="policy-sign"),
    path("setup/units/<uuid:unit>/open-a-stay/", stays.open_stay, name="open-stay"),
    path("setup/stays/<uuid:stay>/", stays.stay_setup, name="stay-setup"),
    path("setup/stays/<uuid:stay>/language/", stays.taught_in, name="taught-in"),
    path("setup/stays/<uuid:stay>/stoma/", stays.add_stoma, name="add-stoma"),
    path("setup/stays/<uuid:stay>/helper/", stays.add_helper, name="add-helper"),
    path("setup/stays/<uuid:stay>/becomes/<slug:kind>/", stay_event, name="stay-event"),
    path("setup/stays/<uuid:stay>/planned-home/", planned_home, name="planned-home"),
    path("setup/stomas/<uuid:stoma>/kit/", stays.fit_kit, name="fit-kit"),
    path("setup/learners/<uuid:learner>/hours/", helper_hours, name="helper-hours"),
    path("setup/learners/<uuid:learner>/needs/", learning_needs, name="learning-needs"),
    path("setup/learners/<uuid:learner>/<slug:whose>/<slug:answer>/", stays.record_consent, name="record-consent"),
]
