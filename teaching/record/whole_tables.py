"""The tables of a stay as an exported file has them: which they are, their columns, and a value each way.

Found by introspection, so a table or column that comes later rides along. Left out on purpose: drafts and derived
rows (never evidence), and the trail, which is each house's own.
"""

import base64
import binascii
import re
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db.models import BinaryField, BooleanField, Field, ForeignKey, IntegerField, JSONField, Model

from teaching.models import ChecklistRow, PersonDetails
from teaching.models.append_only import RECORD
from teaching.record.purging import stay_models

IMPLIED = {"id", "stay", "person"}  # one stay of one person a file


def tables() -> dict[str, type[Model]]:
    """{name in the file: model}, each after those that it names."""
    kept = [model for model in reversed(stay_models()) if getattr(model, "keeps", "") == RECORD]
    found: list[type[Model]] = [PersonDetails, *kept]
    return {name_of(model): model for model in found}


def name_of(model: type[Model]) -> str:
    """StayEvent is stay_event."""
    return re.sub(r"(?<!^)(?=[A-Z])", "_", model.__name__).lower()


def columns(model: type[Model]) -> list[Field]:
    """Every column the file says. A rating's row follows from its code and its event's checklist."""
    return [
        field
        for field in model._meta.concrete_fields
        if field.name not in IMPLIED and field.related_model is not ChecklistRow
    ]


def refers(field: Field) -> bool:
    return isinstance(field, ForeignKey)


def plain(value: Any) -> Any:
    """A stored value as JSON: moments in UTC, bytes as base64, numbers with decimals as text."""
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    if isinstance(value, bytes | memoryview):
        return base64.b64encode(bytes(value)).decode()
    return str(value) if isinstance(value, date | Decimal | UUID) else value


def stored(field: Field, told: Any) -> Any:
    """The value of a column that names no other row. Raises ValueError with what to write instead."""
    if told is None:
        if field.null:
            return None
        raise ValueError("must not be empty; write its value.")
    value = _typed(field, told)
    known = [code for code, _ in field.flatchoices] + ([""] if field.blank else [])
    if field.choices and value not in known:
        raise ValueError(f"{told!r} is not known here; use one of: {', '.join(map(str, filter(None, known)))}.")
    longest = getattr(field, "max_length", None)
    if longest and isinstance(value, str) and len(value) > longest:
        raise ValueError(f"is {len(value)} characters long; it holds {longest} at most.")
    return value


def _typed(field: Field, told: Any) -> Any:
    if isinstance(field, JSONField):
        return told
    if isinstance(field, BinaryField):
        return _bytes(told)
    if isinstance(field, BooleanField | IntegerField):
        wanted = bool if isinstance(field, BooleanField) else int
        if type(told) is not wanted:
            raise ValueError("must be true or false." if wanted is bool else "must be a whole number.")
    elif not isinstance(told, str):
        raise ValueError("must be text in quotation marks.")
    try:
        value = field.to_python(told)
    except ValidationError:
        raise ValueError(f"{told!r} makes no sense here; {_mend(field)}") from None
    if isinstance(value, datetime) and value.tzinfo is None:
        raise ValueError("has no offset from UTC; write it such as 2026-05-11T10:00:00+00:00.")
    return value


def _bytes(told: Any) -> bytes:
    try:
        return base64.b64decode(told, validate=True)
    except (binascii.Error, TypeError, ValueError):
        raise ValueError("is not base64; take the file as it was exported.") from None


def _mend(field: Field) -> str:
    kind = field.get_internal_type()
    wanted = {
        "DateTimeField": "a moment such as 2026-05-11T10:00:00+00:00",
        "DateField": "a day such as 1958-04-23",
        "DecimalField": "a number with its decimals in quotation marks, such as \"32.5\"",
        "UUIDField": "a uid",
    }
    return f"write {wanted.get(kind, 'the value as it was exported')}."
