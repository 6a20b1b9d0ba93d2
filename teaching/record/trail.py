"""The trail: a line for every act, in the transaction of the act; and one for every read, never in its way.

A write without its line is no write: `leave_line` fails closed. A nurse who must see a chart sees it even
when the trail cannot be written just then: `leave_read_line` falls back to the spool, which the next write
loads.
"""

import re
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from typing import Any

from django.conf import settings
from django.db import Error, connection, transaction
from django.utils import timezone

from teaching.models import TrailLine
from teaching.models.macs import line_mac
from teaching.record import seals, spool
from teaching.record.actor import Actor

READ_LOCK_MS = 250

WORD = re.compile(r"[a-z][a-z0-9_ -]*")
UID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
# What an act was about: words, a uid, or both. No digits outside a uid: no number of a person can slip in.
OBJECT = re.compile(rf"[a-z][a-z_ -]*|([a-z][a-z_-]* )?{UID.pattern}")
NOT_IN_ADDRESSES = re.compile(r"[^0-9A-Za-z.:%_-]")


def leave_line(
    *, actor: Actor, verb: str, outcome: str, unit: Any = "", stay: Any = "", object: Any = ""
) -> TrailLine:
    """Write one line inside the verb's own transaction; what it raises undoes the act.

    `verb` and `outcome` are words of the code, `unit` and `stay` rows or their uids, `object` a row, a uid,
    or words with a uid. Raises ValueError for anything that could carry a name, a number or a value.
    """
    if not connection.in_atomic_block:
        raise transaction.TransactionManagementError("A trail line stands in its act's own transaction.")
    line = made_line(actor=actor, verb=verb, outcome=outcome, unit=unit, stay=stay, object=object)
    seals.let_no_seal_pass()
    line.save(force_insert=True)
    # After the commit, so that neither lengthens the act nor can undo it.
    transaction.on_commit(partial(keep_up, line.pk), robust=True)
    return line


def leave_read_line(
    *, actor: Actor, verb: str, outcome: str = "read", unit: Any = "", stay: Any = "", object: Any = ""
) -> None:
    """Write one line about a read, or something that was not allowed: at most 250 ms, then to the spool."""
    line = made_line(actor=actor, verb=verb, outcome=outcome, unit=unit, stay=stay, object=object)
    try:
        with short_wait():
            seals.let_no_seal_pass()
            line.save(force_insert=True)
    except Error:
        spool.put(line)


def made_line(*, actor: Actor, verb: str, outcome: str, unit: Any, stay: Any, object: Any) -> TrailLine:
    """The line, signed and not yet kept."""
    line = TrailLine(
        uid=uuid.uuid4(),
        at=timezone.now(),
        actor=_reference("actor", actor.clinician or "", UID),
        role=",".join(actor.roles),
        verb=_word("verb", verb),
        outcome=_word("outcome", outcome),
        unit=_reference("unit", unit, UID),
        stay=_reference("stay", stay, UID),
        object=_reference("object", object, OBJECT),
        origin=NOT_IN_ADDRESSES.sub("?", actor.address)[:60],
        request_id=NOT_IN_ADDRESSES.sub("?", actor.request_id)[:40],
        key_id=settings.TRAIL_KEY_ID,
    )
    line.mac = line_mac(line)
    for field in TrailLine._meta.fields:  # SQLite would keep a text of any length
        value = getattr(line, field.attname)
        if isinstance(value, str) and field.max_length and len(value) > field.max_length:
            raise ValueError(f"The trail's {field.name} holds at most {field.max_length} characters.")
    return line


def keep_up(written: int) -> None:
    """What the trail is behind with: lines still in the spool, and a seal that is due."""
    spool.load()
    seals.seal_if_due(written)


def _word(field: str, value: str) -> str:
    if not WORD.fullmatch(value):
        raise ValueError(f"The trail's {field} is a word of the code, not {value!r}.")
    return value


def _reference(field: str, value: Any, allowed: re.Pattern[str]) -> str:
    """A row as "kind uid" (for `object`) or its uid alone, a uid as it stands, "" for none."""
    uid = getattr(value, "uid", None)
    if uid is not None:
        return f"{value._meta.model_name} {uid}" if allowed is OBJECT else str(uid)
    text = str(value)
    if text and not allowed.fullmatch(text):
        raise ValueError(f"The trail's {field} is a reference to a row, never its content.")
    return text


@contextmanager
def short_wait() -> Iterator[None]:
    """A transaction (or a savepoint of one) that waits at most 250 ms for a lock."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            with transaction.atomic():
                cursor.execute(f"SET LOCAL lock_timeout = '{READ_LOCK_MS}ms'")
                yield
            return
        usual = cursor.execute("PRAGMA busy_timeout").fetchone()[0]
        cursor.execute(f"PRAGMA busy_timeout = {READ_LOCK_MS}")
        try:
            with transaction.atomic():
                yield
        finally:
            cursor.execute(f"PRAGMA busy_timeout = {usual}")
