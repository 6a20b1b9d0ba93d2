"""Papers, each under the place or person it is about."""

from django.urls import path

from teaching.papers import against_plan_views as against
from teaching.papers import blank_practice_views as blank
from teaching.papers import competence_record_views as skills
from teaching.papers import handover_views as handing_over
from teaching.papers import kept_paper_views as kept
from teaching.papers import learning_report_views as learning
from teaching.papers import sign_readiness_views as signing
from teaching.papers import take_home_views as home
from teaching.papers import transfer_views as transfers
from teaching.papers import unit_evidence_views as evidence
from teaching.papers import views

urlpatterns = [
    path("shift/<uuid:unit>/huddle.pdf", views.huddle_list, name="huddle-list"),
    path("shift/<uuid:unit>/handover.pdf", handing_over.shift_handover, name="shift-handover"),
    path("stays/<uuid:stay>/handover.pdf", handing_over.handover_paper, name="handover-paper"),
    path("stays/<uuid:stay>/transfer.pdf", transfers.transfer_form, name="transfer-form"),
    path("shift/<uuid:unit>/blank-session/<slug:kind>.pdf", transfers.blank_session, name="blank-session"),
    path("stays/<uuid:stay>/readiness/sign/", signing.sign_readiness, name="sign-readiness"),
    path("stays/<uuid:stay>/readiness/draft.pdf", signing.readiness_draft, name="readiness-draft"),
    path("stays/<uuid:stay>/against-plan/", against.leaving_against_plan, name="against-plan"),
    path("stays/<uuid:stay>/take-home/", home.take_home_sheet, name="take-home"),
    path("stomas/<uuid:stoma>/size-page.pdf", home.size_page_sheet, name="size-page"),
    path("skills/<uuid:unit>/own/record.pdf", skills.own_record_paper, name="own-record-paper"),
    path("skills/<uuid:unit>/own/card.pdf", skills.own_pocket_card, name="own-pocket-card"),
    path("skills/<uuid:unit>/nurses/<uuid:nurse>/record.pdf", skills.record_paper, name="record-paper"),
    path("skills/<uuid:unit>/nurses/<uuid:nurse>/card.pdf", skills.nurse_pocket_card, name="nurse-pocket-card"),
    path("skills/<uuid:unit>/evidence/", evidence.evidence, name="unit-evidence"),
    path("skills/<uuid:unit>/<slug:skill>/blank-practice.pdf", blank.blank_practice, name="blank-practice"),
    path("learning/<uuid:unit>/report.pdf", learning.learning_report_paper, name="learning-report"),
    path("staff-papers/<uuid:staff_paper>/paper.pdf", evidence.kept_evidence, name="kept-staff-paper"),
    path("papers/<uuid:paper>/paper.pdf", kept.kept_paper, name="kept-paper"),
    path("papers/<uuid:paper>/changed-since.pdf", kept.changed_since, name="changed-since"),
]
