"""A nurse's competence record and pocket card: one's own, and anybody's for those who see everyone's skills."""

from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.guards import guard
from teaching.access.signed_in import name_of
from teaching.papers.competence_record import competence_record
from teaching.papers.competence_record_sheets import competence_record_pdf, pocket_card_pdf
from teaching.papers.pocket_card import pocket_card
from teaching.papers.views import inline
from teaching.record.nurses import nurse as facts_of
from teaching.record.places import policy_for, ward_of
from teaching.record.skill_history import skill_history
from teaching.record.skills import skills_in_force

RECORD, CARD = "competence-record.pdf", "pocket-card.pdf"


@guard("see_own_skills")
@require_safe
def own_record_paper(request, unit):
    return inline(_record(request, unit, request.user.clinician), RECORD)


@guard("see_skills")
@require_safe
def record_paper(request, unit, nurse):
    return inline(_record(request, unit, nurse), RECORD)


@guard("see_own_skills")
@require_safe
def own_pocket_card(request, unit):
    return inline(_card(unit, request.user.clinician), CARD)


@guard("see_skills")
@require_safe
def nurse_pocket_card(request, unit, nurse):
    return inline(_card(unit, nurse), CARD)


def _record(request, unit, nurse) -> bytes:
    asked = _asked(unit, nurse) | {"history": skill_history([nurse.pk]), "printed_by": name_of(request.user)}
    return competence_record_pdf(competence_record(**asked))


def _card(unit, nurse) -> bytes:
    return pocket_card_pdf(pocket_card(**_asked(unit, nurse)))


def _asked(unit, nurse) -> dict:
    """The hospital's policy judges a skill, wherever the nurse works."""
    now = timezone.now()
    return {
        "nurse": facts_of(nurse.pk), "skills": skills_in_force(), "policy": policy_for(None, now),
        "ward": ward_of(unit), "now": now, "unit": unit.name,
    }  # fmt: skip
