"""Seals link the trail's lines: batch after batch, each seal signs its lines' MACs and the seal before it.

Why no line is ever left out of its batch: ids are given when a line is written, but on PostgreSQL a line
with a lower id may be committed after one with a higher id, and a rolled-back act leaves a gap. So whoever
writes a line first takes a lock that all writers share and that ends with their transaction; sealing takes
the same lock alone. While it holds it, every id given is either committed and seen, or gone for good.
Sealing never queues for that lock (others would queue behind it): where it is not free, the next write
tries again. SQLite has one writer at a time and needs none.
"""

import logging
from datetime import timedelta

from django.conf import settings
from django.db import connection, transaction
from django.db.models import Max
from django.utils import timezone

from teaching.models import Seal, TrailLine
from teaching.models.macs import seal_mac
from teaching.record import seal_head
from teaching.record.prepared import newest

log = logging.getLogger(__name__)

DUE_LINES = 100
DUE_AFTER = timedelta(minutes=1)
LOCK = 0x7EA1  # any number nobody else uses for an advisory lock in this database


def let_no_seal_pass() -> None:
    """Call before a line is written: no seal is made until this transaction ends. See the module's text."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock_shared(%s)", [LOCK])


def seal_batch() -> Seal | None:
    """Seal every line not sealed yet as one batch; None where there is none, or where somebody is writing."""
    with transaction.atomic():
        if not _alone():
            return None
        before = Seal.objects.order_by("number").last()
        first = before.last_id + 1 if before else 1
        lines = TrailLine.objects.filter(id__gte=first).order_by("id")
        found = list(lines.values_list("id", "mac"))
        if not found:
            return None
        seal = Seal(
            number=before.number + 1 if before else 1,
            first_id=first,
            last_id=found[-1][0],
            count=len(found),
            previous_mac=before.mac if before else "",
            key_id=settings.TRAIL_KEY_ID,
            sealed_at=timezone.now(),
        )
        seal.mac = seal_mac(seal, found)
        seal.save(force_insert=True)
        transaction.on_commit(lambda: seal_head.keep(seal), robust=True)
        return seal


def sealed_to() -> int:
    """The id of the last line under a seal; 0 before the first."""
    return Seal.objects.aggregate(last=Max("last_id"))["last"] or 0


def seal_if_due(written: int | None = None) -> Seal | None:
    """Seal when 100 lines have come since the last seal, or its minute is past and there is any.

    `written`: the id of a line just written, so that it need not be asked for.
    """
    last = newest(Seal, ("last_id", "sealed_at"))
    if written is None:
        line = newest(TrailLine, ("id",))
        written = line.id if line else 0
    lines = written - (last.last_id if last else 0)
    waited = last is None or timezone.now() - last.sealed_at >= DUE_AFTER
    return seal_batch() if lines >= DUE_LINES or (lines > 0 and waited) else None


def _alone() -> bool:
    """Whether nobody is writing a line now, and nobody can before this transaction ends."""
    if connection.vendor != "postgresql":
        return True  # BEGIN IMMEDIATE: one writer at a time
    with connection.cursor() as cursor:
        cursor.execute("SELECT pg_try_advisory_xact_lock(%s)", [LOCK])
        return cursor.fetchone()[0]
