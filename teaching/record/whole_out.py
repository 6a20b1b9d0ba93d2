"""The whole record of one stay as plain data: every row of it by uid, and whom and what its rows name.

The format is told in docs/whole-record.md. Columns keep their names; a row that is named is named by its uid.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from django.db.models import Model
from django.utils import timezone

from teaching.models import ChecklistRow, ChecklistVersion, Clinician, ClinicianDetails, SignOff, Stay, StayNow, Unit
from teaching.record.actor import Actor
from teaching.record.trail import leave_read_line
from teaching.record.whole_tables import columns, plain, refers, tables

FORMAT = "ostomy-teach whole record"
VERSION = 1
OF_A_SIGN_OFF = ("skill", "certificate", "valid_from", "valid_until", "kind")

Named = dict[type[Model], set[int]]


def whole_record(*, actor: Actor, stay: Stay) -> dict[str, Any]:
    """Everything about a stay that is evidence, JSON-ready. Leaves a line in the trail: a record left the house."""
    now = StayNow.objects.select_related("unit").get(stay=stay)
    rows = {name: list(_rows_of(model, stay)) for name, model in tables().items()}
    named = _named(row for found in rows.values() for row in found)
    sign_offs = list(SignOff.objects.filter(pk__in=named[SignOff]).order_by("pk"))
    for each in sign_offs:
        named[Clinician] |= {each.nurse_id, each.assessor_id}
    uids = _uids(rows, named)
    told = {
        "format": FORMAT,
        "version": VERSION,
        "exported_at": plain(timezone.now()),
        "stay": {"uid": str(stay.uid), "zone": stay.zone, "revision": now.revision} | _written(stay, uids),
        "person": {"uid": str(stay.person.uid)},
        "clinicians": _clinicians(named[Clinician] | ({stay.by_id} if stay.by_id else set())),
        "units": [
            {"uid": str(unit.uid), "name": unit.name, "zone": unit.zone}
            for unit in Unit.objects.filter(pk__in=named[Unit]).order_by("pk")
        ],
        "sign_offs": [_sign_off(each, uids) for each in sign_offs],
        "checklists": _checklists(named),
        **{name: [_row(row, uids) for row in found] for name, found in rows.items()},
    }
    leave_read_line(actor=actor, verb="export_stay", unit=now.unit, stay=stay)
    return told


def _rows_of(model: type[Model], stay: Stay) -> Iterable[Model]:
    parent = {"stay": stay} if any(field.name == "stay" for field in model._meta.fields) else {"person": stay.person_id}
    return model._default_manager.filter(**parent).order_by("pk")


def _named(rows: Iterable[Model]) -> Named:
    """The keys of every row outside the stay that a row of it names."""
    found: Named = defaultdict(set)
    for row in rows:
        for field in row._meta.concrete_fields:
            key = getattr(row, field.attname)
            if refers(field) and key is not None:
                found[field.related_model].add(key)  # type: ignore[index]
    return found


def _uids(rows: Mapping[str, list[Any]], named: Named) -> dict[tuple[type[Model], int], str]:
    found = {(type(row), row.pk): str(row.uid) for some in rows.values() for row in some}
    for model in (Clinician, Unit, SignOff):
        keys = model.objects.filter(pk__in=named[model]).values_list("pk", "uid")
        found |= {(model, pk): str(uid) for pk, uid in keys}
    versions = ChecklistVersion.objects.filter(pk__in=named[ChecklistVersion])
    return found | {(ChecklistVersion, each.pk): str(each) for each in versions}


def _row(row: Model, uids: Mapping[tuple[type[Model], int], str]) -> dict[str, Any]:
    told = {}
    for field in columns(type(row)):
        value = getattr(row, field.attname)
        named = refers(field) and value is not None
        told[field.name] = uids[field.related_model, value] if named else plain(value)  # type: ignore[index]
    return told


def _written(stay: Stay, uids: Mapping[tuple[type[Model], int], str]) -> dict[str, Any]:
    return {"recorded_at": plain(stay.recorded_at), "by": str(stay.by.uid) if stay.by else None}


def _clinicians(keys: set[int]) -> list[dict[str, str]]:
    """By name, grade and registration as they stand now; each account keeps the grade it was signed with."""
    newest = {row.clinician_id: row for row in ClinicianDetails.objects.filter(clinician__in=keys).order_by("number")}
    return [
        {
            "uid": str(each.uid), "registration": each.registration,
            "name": newest[each.pk].name, "grade": newest[each.pk].grade,
        }
        for each in Clinician.objects.filter(pk__in=keys).order_by("pk")
    ]


def _sign_off(row: SignOff, uids: Mapping[tuple[type[Model], int], str]) -> dict[str, Any]:
    told = {name: plain(getattr(row, name)) for name in OF_A_SIGN_OFF}
    people = {"nurse": row.nurse_id, "assessor": row.assessor_id}
    return {"uid": str(row.uid), **told} | {
        name: uids.get((Clinician, key)) or str(Clinician.objects.get(pk=key).uid) for name, key in people.items()
    }


def _checklists(named: Named) -> dict[str, dict[str, Any]]:
    from_rows = ChecklistRow.objects.filter(pk__in=named[ChecklistRow]).values_list("version", flat=True)
    keys = named[ChecklistVersion] | set(from_rows)
    return {
        str(each): {"sha256": each.sha256, "content": each.content}
        for each in ChecklistVersion.objects.filter(pk__in=keys).order_by("pk")
    }
