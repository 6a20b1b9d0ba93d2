"""Addresses of the education room. Nurses are named by uid alone."""

from django.urls import include, path

from teaching.education.huddle_views import who_teaches
from teaching.education.learning_views import agreement, learning, learning_first
from teaching.education.nurse_acts_views import ask_to_be_observed, pair_ask, rate_oneself, take_back_ask
from teaching.education.nurse_views import nurse_skills, own_skills
from teaching.education.practice_views import record_practice, take_back_practice
from teaching.education.sign_off_views import accept_certificate, sign_off, withdraw_sign_off
from teaching.education.skills_views import nurses_by_skill, skills

own = [
    path("", own_skills, name="own-skills"),
    path("<slug:skill>/confidence/", rate_oneself, name="rate-oneself"),
    path("<slug:skill>/ask/", ask_to_be_observed, name="ask-to-be-observed"),
    path("<slug:skill>/take-back/", take_back_ask, name="take-back-ask"),
]
nurse = [
    path("", nurse_skills, name="nurse-skills"),
    path("<slug:skill>/practice/", record_practice, name="record-practice"),
    path("<slug:skill>/pair/", pair_ask, name="pair-ask"),
    path("<slug:skill>/sign-off/", sign_off, name="sign-off"),
    path("<slug:skill>/withdraw/", withdraw_sign_off, name="withdraw-sign-off"),
    path("<slug:skill>/certificate/", accept_certificate, name="accept-certificate"),
]
urlpatterns = [
    path("skills/", skills, name="skills"),
    path("skills/<uuid:unit>/", nurses_by_skill, name="nurses-by-skill"),
    path("skills/<uuid:unit>/own/", include(own)),
    path("skills/<uuid:unit>/nurses/<uuid:nurse>/", include(nurse)),
    path("skills/practices/<uuid:practice>/take-back/", take_back_practice, name="take-back-practice"),
    path("learning/", learning_first, name="learning-first"),
    path("learning/<uuid:unit>/", learning, name="learning"),
    path("learning/<uuid:unit>/agreement/", agreement, name="agreement"),
    path("shift/<uuid:unit>/who-teaches/", who_teaches, name="who-teaches"),
]
