"""A whole record looked over before any of it is stored: each fault with its place in the file, and the mend."""

from collections import Counter
from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db.models import Field, Model, OneToOneField, UniqueConstraint
from django.utils import timezone

from teaching.models import Account, ChecklistVersion, Clinician, SignOff, Unit
from teaching.models.append_only import Record
from teaching.record.checking import CLOCKS_DIFFER, Faults
from teaching.record.whole_out import FORMAT, OF_A_SIGN_OFF, VERSION
from teaching.record.whole_tables import columns, refers, stored, tables
from teaching.rules.vocabulary import GRADES

NOT_AMONG = "is not among the clinicians of this file; bring them along."
LISTS = ("clinicians", "units", "sign_offs")
ALWAYS = ("uid", "recorded_at", "number")  # never taken from a default
KEYS = {
    "clinicians": ("uid", "name", "grade", "registration"),
    "units": ("uid", "name", "zone"),
    "sign_offs": ("uid", "nurse", "assessor", *OF_A_SIGN_OFF),
}
OUTSIDE: dict[type[Model], str] = {
    Clinician: "clinicians", Unit: "units", SignOff: "sign_offs", ChecklistVersion: "checklists",
}


def check_shape(faults: Faults, told: Any) -> None:
    """The head, the lists and what each entry of them must hold; stops at the first missing part."""
    if not isinstance(told, Mapping) or told.get("format") != FORMAT:
        faults.add("format", f'This is not a whole record; its format must be "{FORMAT}".')
    elif told.get("version") != VERSION:
        faults.add("version", f"This house reads version {VERSION}; export it again from a house that writes that.")
    faults.stop()
    known = {"format", "version", "exported_at", "stay", "person", "checklists", *LISTS, *tables()}
    for name in sorted(set(told) - known):
        faults.add(name, "This house has no such table; import it into a newer one, so that nothing is lost.")
    for name in ("stay", "person", "checklists"):
        if not isinstance(told.get(name), Mapping):
            faults.add(name, "This part is missing; take the file as it was exported.")
    for name in (*LISTS, *tables()):
        entries = told.get(name)
        if not isinstance(entries, list) or not all(isinstance(each, Mapping) for each in entries):
            faults.add(name, "This must be a list of rows; take the file as it was exported.")
    for name in ("person_details", "stay_details", "stay_event", "learner"):
        if told.get(name) == []:
            faults.add(name, "No stay is without one; take the file as it was exported.")
    faults.stop()
    _check_heads(faults, told)
    for name, keys in KEYS.items():
        for index, each in enumerate(told[name]):
            for key in keys:
                if not isinstance(each.get(key), str):
                    faults.add(f"{name}[{index}].{key}", "is missing; write it as text.")
    for index, each in enumerate(told["clinicians"]):
        faults.word(f"clinicians[{index}].grade", each.get("grade", ""), GRADES)
        faults.text(f"clinicians[{index}].name", str(each.get("name", "")), 120, "The name")
    faults.stop()


def _check_heads(faults: Faults, told: Mapping[str, Any]) -> None:
    for name in ("stay", "person"):
        if not is_uid(told[name].get("uid")):
            faults.add(f"{name}.uid", "is not a uid; take the file as it was exported.")
    if not isinstance(told["stay"].get("revision"), int) or told["stay"]["revision"] < 1:
        faults.add("stay.revision", "must be a whole number from 1 up.")
    if not isinstance(told["stay"].get("zone"), str):
        faults.add("stay.zone", "is missing; write a time zone such as Europe/London.")
    _moment(faults, "stay.recorded_at", told["stay"].get("recorded_at"))
    for name, each in told["checklists"].items():
        if not isinstance(each, Mapping) or not isinstance(each.get("content"), Mapping) or "sha256" not in each:
            faults.add(f"checklists.{name}", "needs sha256 and content; take the file as it was exported.")


def _moment(faults: Faults, path: str, told: Any) -> None:
    try:
        if datetime.fromisoformat(told).tzinfo is None:
            raise ValueError
    except (TypeError, ValueError):
        faults.add(path, "is not a moment; write it such as 2026-05-11T10:00:00+00:00.")


def check_rows(faults: Faults, told: Mapping[str, Any]) -> None:
    """Every row: its columns, its values, whom and what it names, and that it stands once."""
    known = _named_in(told)
    for name, model in tables().items():
        wanted = {field.name: field for field in columns(model)}
        for index, row in enumerate(told[name]):
            at = f"{name}[{index}]"
            for key in sorted(set(row) - set(wanted)):
                faults.add(f"{at}.{key}", "This house has no such column; import into a newer one.")
            for key, field in wanted.items():
                if key in row:
                    _check_value(faults, f"{at}.{key}", field, row[key], known)
                elif key in ALWAYS or not (field.has_default() or field.null):
                    faults.add(f"{at}.{key}", "is missing; take the file as it was exported.")
        _check_once(faults, name, model, told[name])


def _named_in(told: Mapping[str, Any]) -> dict[type[Model], set[str]]:
    """The uids that rows may name, by model."""
    found = {model: {str(each.get("uid")) for each in told[name]} for name, model in tables().items()}
    for model, name in OUTSIDE.items():
        found[model] = set(told[name]) if name == "checklists" else {str(each["uid"]) for each in told[name]}
    return found


def _check_value(faults: Faults, path: str, field: Field, value: Any, known: Mapping[type[Model], set[str]]) -> None:
    if refers(field):
        if value is None and not field.null:
            faults.add(path, "names nobody and nothing; write the uid it had.")
        elif value is not None and value not in known.get(field.related_model, ()):  # type: ignore[arg-type]
            part = OUTSIDE.get(field.related_model) or "its own table"  # type: ignore[arg-type]
            faults.add(path, f"names {value}, which does not stand in {part} of this file; bring it along.")
        return
    try:
        read = stored(field, value)
    except ValueError as trouble:
        faults.add(path, str(trouble))
        return
    if field.name == "recorded_at" and read > timezone.now() + CLOCKS_DIFFER:
        faults.add(path, "is still to come; correct it.")


def _check_once(faults: Faults, name: str, model: type[Model], rows: list[Mapping[str, Any]]) -> None:
    """What the tables allow once, stands once in the file; so a clash is named before anything is stored."""
    alone = [(field.name,) for field in model._meta.concrete_fields if field.unique or isinstance(field, OneToOneField)]
    whole = [
        tuple(each.fields)
        for each in model._meta.constraints
        if isinstance(each, UniqueConstraint) and each.condition is None
    ]
    for keys in [*alone, *whole]:
        named = [key for key in keys if key not in ("id", "stay", "person")]
        if not named:
            continue
        seen = Counter(repr([row.get(key) for key in named]) for row in rows if any(row.get(key) for key in named))
        for index, row in enumerate(rows):
            if seen[repr([row.get(key) for key in named])] > 1:
                faults.add(f"{name}[{index}]", f"The same {' and '.join(named)} stands twice; keep one of the two.")


def check_sign_offs(faults: Faults, told: Mapping[str, Any]) -> None:
    """An account counts as signed off only with a sign-off that rode along and fits it."""
    known = {each["uid"]: each for each in told["sign_offs"]}
    own = [field for field in SignOff._meta.concrete_fields if field.name in OF_A_SIGN_OFF]
    for index, each in enumerate(told["sign_offs"]):
        for field in own:
            _check_value(faults, f"sign_offs[{index}].{field.name}", field, each[field.name], {})
        people = {clinician["uid"] for clinician in told["clinicians"]}
        for key in ("nurse", "assessor"):
            if each[key] not in people:
                faults.add(f"sign_offs[{index}].{key}", NOT_AMONG)
        if each["nurse"] == each["assessor"]:
            faults.add(f"sign_offs[{index}].assessor", "Nobody signs for themselves; correct who assessed.")
    faults.stop()
    for index, row in enumerate(told["account"]):
        leaned = known.get(row.get("sign_off") or "")
        if leaned is None:
            continue
        began, start, end = (_utc(each) for each in (row["began_at"], leaned["valid_from"], leaned["valid_until"]))
        if leaned["nurse"] != row["rater"] or leaned["kind"] != "granted" or not start <= began <= end:
            faults.add(
                f"account[{index}].sign_off",
                "does not fit this account: another nurse's, withdrawn, or not valid then; take the file as exported.",
            )


def _utc(text: str) -> datetime:
    return datetime.fromisoformat(text)


def is_uid(text: Any) -> bool:
    try:
        return isinstance(text, str) and str(UUID(text)) == text
    except ValueError:
        return False


def made(model: type[Model], row: Mapping[str, Any], named: Mapping[tuple[type[Model], str], Any]) -> Any:
    """The row as an object, not yet stored; `named` holds what it may name, by model and uid."""
    values: dict[str, Any] = {}
    for field in columns(model):
        if field.name not in row:
            continue
        value = row[field.name]
        if refers(field):
            values[field.name] = named[field.related_model, value] if value is not None else None  # type: ignore[index]
        else:
            values[field.name] = stored(field, value)
    return model(**values)


def is_evidence(model: type[Model]) -> bool:
    """Whether its rows stand by themselves: what is a part of an account rides with the account."""
    return issubclass(model, Record) and not any(
        field.related_model is Account for field in model._meta.concrete_fields if field.name == "account"
    )
