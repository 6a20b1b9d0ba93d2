"""The one way out of the record: two people agree, and every row of one stay is removed.

The permit (`Purge`) and its end (`PurgeDone`) stay for good, and so do the trail's lines, which hold
references only. Between the two the database's guards let go exactly the rows of that stay; see
`models/guards.py`.
"""

from graphlib import TopologicalSorter

from django.apps import apps
from django.db import connection, models, transaction

from teaching.models import Clinician, DraftTap, Person, PersonDetails, Purge, PurgeDone, Stay, TakeOver
from teaching.models.guards import bound_to_a_stay
from teaching.record.actor import Actor
from teaching.record.refusals import refuse
from teaching.record.trail import leave_line
from teaching.record.writing import lock


def purge_stay(*, actor: Actor, agreed_by: Clinician, stay: Stay, why: str) -> PurgeDone:
    """Remove the stay and all it holds; the person too, where it is their last stay. Returns the permit's
    end.

    Refused where one person would do it alone, where `why` is empty, and on PostgreSQL for the web's own
    role.
    """
    if actor.clinician is None:
        refuse("", "A purge is asked for by a clinician. Sign in, or name who asks.")
    if actor.clinician == agreed_by:
        refuse("agreed_by", "Two people are needed. Ask a second clinician to agree.")
    if not why.strip():
        refuse("why", "Write why this stay is removed.")
    if not _may_delete():
        refuse("", "The web may not delete. Run manage.py purge_stay as the database's owner.")
    with transaction.atomic():
        held = Stay.objects.filter(pk=stay.pk).first()
        if held is None:
            refuse("stay", "This stay is not here any more.")
        lock([held])
        last = not Stay.objects.filter(person=held.person).exclude(pk=held.pk).exists()
        permit = Purge.objects.create(
            by=actor.clinician,
            stay=str(held.uid),
            stay_key=held.pk,
            person_key=held.person_id if last else None,
            asked_by=actor.clinician,
            agreed_by=agreed_by,
            why=why.strip(),
        )
        leave_line(actor=actor, verb="purge_stay", outcome="begun", stay=held, object=permit)
        rows = _remove(held, with_person=last)
        done = PurgeDone.objects.create(by=actor.clinician, purge=permit, rows=rows)
        leave_line(actor=actor, verb="purge_stay", outcome="done", stay=permit.stay, object=permit)
        return done


def stay_models() -> list[type[models.Model]]:
    """Every model with rows of one stay, those that lean on others first: in this order nothing dangles."""
    bound = [model for model in apps.get_app_config("teaching").get_models() if bound_to_a_stay(model)]
    order: TopologicalSorter[type[models.Model]] = TopologicalSorter()
    for model in bound:
        order.add(model)
        for field in model._meta.fields:
            if field.related_model in bound and field.related_model is not model:
                order.add(field.related_model, model)
    return list(order.static_order())


def _remove(stay: Stay, *, with_person: bool) -> int:
    """Delete in plain SQL, since the models refuse; how many rows went."""
    rows = sum(
        _delete(part, "draft_id IN (SELECT id FROM teaching_draft WHERE stay_id = %s)", stay.pk)
        for part in (DraftTap, TakeOver)
    )
    for model in stay_models():
        rows += _delete(model, "stay_id = %s", stay.pk)
    rows += _delete(Stay, "id = %s", stay.pk)
    if with_person:
        rows += _delete(PersonDetails, "person_id = %s", stay.person_id)
        rows += _delete(Person, "id = %s", stay.person_id)
    return rows


def _delete(model: type[models.Model], where: str, key: int) -> int:
    with connection.cursor() as cursor:
        cursor.execute(f'DELETE FROM "{model._meta.db_table}" WHERE {where}', [key])
        return cursor.rowcount


def _may_delete() -> bool:
    if connection.vendor != "postgresql":
        return True
    with connection.cursor() as cursor:
        cursor.execute("SELECT has_table_privilege(%s, 'DELETE')", [Stay._meta.db_table])
        return cursor.fetchone()[0]
