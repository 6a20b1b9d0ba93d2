"""Whether the trail is as it was written: every line by its MAC, every batch by its seal, every seal by the
one before.

What it cannot tell: lines cut off the end on PostgreSQL that no seal holds yet (at most a minute or a
hundred lines; a gap there may be an act that was undone), and a change by somebody who has the trail's key.
"""

from collections.abc import Iterator

from django.db import connection

from teaching.models import Seal, TrailLine
from teaching.models.macs import UnknownKey, line_mac, seal_mac
from teaching.record import seal_head, spool


def examine() -> list[str]:
    """A sentence for every fault, in the order of the trail; an empty list when it holds."""
    return list(_faults())


def _faults() -> Iterator[str]:
    before: Seal | None = None
    for seal in Seal.objects.order_by("number"):
        yield from _link_faults(seal, before)
        yield from _batch_faults(seal)
        before = seal
    yield from _head_faults(before)
    yield from _open_faults(before.last_id if before else 0)
    yield from (f"The spooled line {path.stem} is not as it was written." for path in spool.spoiled())


def _link_faults(seal: Seal, before: Seal | None) -> Iterator[str]:
    number, last, mac = (before.number, before.last_id, before.mac) if before else (0, 0, "")
    if seal.number != number + 1:
        yield f"Seal {number + 1} is missing: seal {seal.number} comes next."
    elif seal.previous_mac != mac:
        yield f"Seal {seal.number} does not follow on seal {number} as that stands."
    if seal.first_id != last + 1:
        yield f"Lines {last + 1} to {seal.first_id - 1} stand under no seal."


def _batch_faults(seal: Seal) -> Iterator[str]:
    batch = f"Batch {seal.number} (lines {seal.first_id} to {seal.last_id})"
    lines = list(TrailLine.objects.filter(id__range=(seal.first_id, seal.last_id)).order_by("id"))
    for line in lines:
        yield from _line_faults(line)
    if len(lines) != seal.count:
        yield f"{batch} holds {len(lines)} lines where {seal.count} were sealed.{_gaps(seal, lines)}"
    try:
        if seal_mac(seal, ((line.pk, line.mac) for line in lines)) != seal.mac:
            yield f"{batch} is not as it was sealed: a line or the seal was changed, moved, added or removed."
    except UnknownKey as key:
        yield f"{batch} was sealed with the key {key}, which the settings do not hold."


def _gaps(seal: Seal, lines: list[TrailLine]) -> str:
    gone = sorted(set(range(seal.first_id, seal.last_id + 1)) - {line.pk for line in lines})
    shown = ", ".join(map(str, gone[:10])) + (" and more" if len(gone) > 10 else "")
    return f" No line stands at {shown}." if gone else ""


def _line_faults(line: TrailLine) -> Iterator[str]:
    try:
        if line_mac(line) != line.mac:
            yield f"Line {line.pk} is not as it was written."
    except UnknownKey as key:
        yield f"Line {line.pk} was written with the key {key}, which the settings do not hold."


def _head_faults(last: Seal | None) -> Iterator[str]:
    """Against the newest seal as it was written down outside the database."""
    head = seal_head.seen()
    if head is None:
        return
    if not head["mac"]:
        yield f"{seal_head.place().name}, where the newest seal is written down, cannot be read."
    elif last is None or last.number < head["number"]:
        newest = last.number if last else "none"
        yield f"The end was cut off: seal {head['number']} was made, and the newest here is {newest}."
    elif not Seal.objects.filter(number=head["number"], mac=head["mac"]).exists():
        yield f"Seal {head['number']} is not the one that was written down outside the database."


def _open_faults(sealed_to: int) -> Iterator[str]:
    """The lines that no seal holds yet."""
    found = 0
    for line in TrailLine.objects.filter(id__gt=sealed_to).order_by("id").iterator():
        found += 1
        yield from _line_faults(line)
    if connection.vendor == "sqlite":  # its ids have no gaps, and it remembers the highest it gave
        with connection.cursor() as cursor:
            cursor.execute("SELECT max(seq) FROM sqlite_sequence WHERE name = %s", [TrailLine._meta.db_table])
            given = cursor.fetchone()[0] or 0
        if found != max(given, sealed_to) - sealed_to:
            yield f"After line {sealed_to}, {given - sealed_to} lines were written and {found} are there."
