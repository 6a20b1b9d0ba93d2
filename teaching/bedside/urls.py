"""Addresses of the bedside room. No name or number of a person in any of them."""

from django.urls import path

from teaching.bedside.body_event_views import body_event
from teaching.bedside.care_views import care
from teaching.bedside.caution_views import mistake, settled, told
from teaching.bedside.correct_views import correct_account, rate_beside
from teaching.bedside.handover_views import handover
from teaching.bedside.kept_taps_views import kept_taps
from teaching.bedside.light import light
from teaching.bedside.output_views import nothing_since, output_total
from teaching.bedside.person_views import person
from teaching.bedside.put_away_views import put_away
from teaching.bedside.recheck_views import recheck
from teaching.bedside.recorder_views import (
    change,
    emptying,
    meeting,
    night,
    tap_change,
    tap_emptying,
    tap_meeting,
    tap_night,
)
from teaching.bedside.session_views import add_note, cosign, entered_in_error, session, waiting
from teaching.bedside.shift_views import huddle, this_shift
from teaching.bedside.state_views import teaching_state
from teaching.bedside.take_over_views import take_over
from teaching.bedside.topics_views import topics

urlpatterns = [
    path("light/", light, name="light"),
    path("shift/<uuid:unit>/", this_shift, name="this-shift"),
    path("shift/<uuid:unit>/huddle/", huddle, name="huddle"),
    path("stays/<uuid:stay>/", person, name="person"),
    path("stays/<uuid:stay>/handover/", handover, name="handover"),
    path("stays/<uuid:stay>/emptying/", emptying, name="emptying"),
    path("stays/<uuid:stay>/emptying/taps/", tap_emptying, name="tap-emptying"),
    path("stays/<uuid:stay>/change/", change, name="change"),
    path("stays/<uuid:stay>/change/taps/", tap_change, name="tap-change"),
    path("stays/<uuid:stay>/night/", night, name="night"),
    path("stays/<uuid:stay>/night/taps/", tap_night, name="tap-night"),
    path("stays/<uuid:stay>/meeting/", meeting, name="meeting"),
    path("stays/<uuid:stay>/meeting/taps/", tap_meeting, name="tap-meeting"),
    path("stays/<uuid:stay>/recheck/", recheck, name="recheck"),
    path("stays/<uuid:stay>/topics/", topics, name="topics"),
    path("stays/<uuid:stay>/care/", care, name="care"),
    path("stays/<uuid:stay>/output/", output_total, name="output-total"),
    path("stays/<uuid:stay>/nothing-out/", nothing_since, name="nothing-since"),
    path("stays/<uuid:stay>/changed/", body_event, name="body-event"),
    path("stays/<uuid:stay>/teaching/<slug:kind>/", teaching_state, name="teaching-state"),
    path("cautions/<uuid:caution>/told/", told, name="caution-told"),
    path("cautions/<uuid:caution>/settled/", settled, name="caution-settled"),
    path("cautions/<uuid:caution>/mistake/", mistake, name="caution-mistake"),
    path("shift/<uuid:unit>/waiting/", waiting, name="waiting"),
    path("taps/", kept_taps, name="kept-taps"),
    path("drafts/<uuid:draft>/take-over/", take_over, name="take-over"),
    path("drafts/<uuid:draft>/put-away/", put_away, name="put-away"),
    path("events/<uuid:event>/", session, name="session"),
    path("accounts/<uuid:account>/correct/", correct_account, name="correct-account"),
    path("accounts/<uuid:account>/note/", add_note, name="add-note"),
    path("accounts/<uuid:account>/in-error/", entered_in_error, name="entered-in-error"),
    path("accounts/<uuid:account>/co-sign/", cosign, name="cosign"),
    path("accounts/<uuid:account>/beside/", rate_beside, name="rate-beside"),
]
