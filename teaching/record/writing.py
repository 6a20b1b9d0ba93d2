"""One transaction of a verb: the stay's row of stay_now is locked first, and the loser of a race is told so."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from django.db import IntegrityError, connection, transaction
from django.db.models import Max

from teaching.models import Stay, StayNow, Unit
from teaching.models.append_only import Record
from teaching.record.actor import Actor
from teaching.record.prepared import read, read_locked
from teaching.record.refusals import Fault, Refused
from teaching.record.trail import leave_line

UNIQUE_IN_POSTGRESQL = "23505"
UNIQUE_IN_SQLITE = "UNIQUE constraint failed"
LOCKED = ("id", "stay_id", "unit_id", "state", "bed", "revision")
UNIT = ("id", "uid", "name", "zone")


class Superseded(Refused):
    """Somebody else wrote the same thing first (HTTP 409); nothing of ours was stored."""

    def __init__(
        self, sentence: str = "Somebody else saved this at the same moment. Look at what stands now, then save again."
    ) -> None:
        super().__init__(Fault("", sentence))


@contextmanager
def writing(stay: Stay | None = None) -> Iterator[StayNow | None]:
    """A transaction around one verb; yields the stay's locked row of stay_now, None where no stay is named.

    SQLite begins every transaction IMMEDIATE, so there the lock is the transaction. Raises Superseded when a
    unique key was already taken.
    """
    with writing_all([stay] if stay else []) as locked:
        yield locked[stay.pk] if stay else None


@contextmanager
def writing_all(stays: Sequence[Stay]) -> Iterator[dict[int, StayNow]]:
    """The same for several stays, locked in one order so that two writers never wait for each other."""
    try:
        with transaction.atomic():
            yield lock(stays) if stays else {}
    except IntegrityError as clash:
        if is_taken(clash):
            raise Superseded from clash
        raise


def lock(stays: Sequence[Stay]) -> dict[int, StayNow]:
    """The locked rows with their units; what a verb does not need of them is read only when asked for."""
    rows = read_locked(StayNow, LOCKED, "stay_id", [stay.pk for stay in stays])
    places = read(Unit, UNIT, "id", sorted({row.unit_id for row in rows}))
    units = {row.id: Unit.from_db(connection.alias, UNIT, row) for row in places}
    found = {row.stay_id: StayNow.from_db(connection.alias, LOCKED, row) for row in rows}
    for kept in found.values():
        kept.unit = units[kept.unit_id]
    return found


def one_at_a_time(*words: str) -> None:
    """Until the end of this transaction nobody else is past this line with the same words.

    For what has no row to lock yet, such as a person not known here. SQLite has one writer anyway.
    """
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(hashtextextended(%s, 0))", ["\n".join(words)])


def is_taken(clash: IntegrityError) -> bool:
    """Whether it was a unique key; a broken CHECK or reference is a fault of ours and goes on up."""
    return getattr(clash.__cause__, "sqlstate", "") == UNIQUE_IN_POSTGRESQL or UNIQUE_IN_SQLITE in str(clash)


def next_number(model: type[Record], **parent: Any) -> int:
    """The number of the next row under this parent, from 1."""
    return (model.objects.filter(**parent).aggregate(newest=Max("number"))["newest"] or 0) + 1


def done(actor: Actor, verb: str, made: Any = "", *, stay: Stay | str = "", unit: Unit | str = "") -> None:
    """The trail line of a verb that stored something: what was made is named by kind and uid alone."""
    leave_line(actor=actor, verb=verb, outcome="done", unit=unit, stay=stay, object=made)
