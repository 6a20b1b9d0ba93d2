"""Trail lines that could not be written at once: signed files, loaded by the next write or `seal_trail`."""

import json
import logging
import os
from datetime import datetime
from pathlib import Path

from django.conf import settings
from django.db import Error, transaction

from teaching.models import TrailLine
from teaching.models.macs import LINE_FIELDS, UnknownKey, line_mac
from teaching.record.seals import let_no_seal_pass

log = logging.getLogger(__name__)


def folder() -> Path:
    return Path(settings.VAR_DIR) / "spool"


def put(line: TrailLine) -> None:
    """Keep the line as <uid>.json, whole or not at all. Never raises: a read goes on whatever happens."""
    said = {field: str(getattr(line, field)) for field in (*LINE_FIELDS, "mac")} | {"at": line.at.isoformat()}
    try:
        folder().mkdir(mode=0o700, parents=True, exist_ok=True)
        draft = folder() / f"{line.uid}.new"
        with open(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as file:
            json.dump(said, file)
            file.flush()
            os.fsync(file.fileno())
        draft.rename(draft.with_suffix(".json"))
    except OSError:
        # The log holds it then: references only, as in the trail itself.
        log.exception("A trail line could not be kept: %s", json.dumps(said))


def waiting() -> list[Path]:
    """The files not loaded yet, oldest first."""
    try:
        return sorted(folder().glob("*.json"), key=lambda path: path.stat().st_mtime)
    except OSError:
        return []


def spoiled() -> list[Path]:
    """The files that did not match their MAC when they were to be loaded."""
    return sorted(folder().glob("*.bad"))


def load() -> int:
    """Write every waiting line into the trail; how many. One that was tampered with stays, as <uid>.bad."""
    return sum(_load(path) for path in waiting())


def _load(path: Path) -> int:
    try:
        said = json.loads(path.read_text(encoding="utf-8"))
        line = TrailLine(**said | {"at": datetime.fromisoformat(said["at"])})
        genuine = line_mac(line) == line.mac
    except FileNotFoundError:  # another process was quicker
        return 0
    except (OSError, ValueError, KeyError, TypeError, UnknownKey):
        genuine = False
    if not genuine:
        log.error("A spooled trail line does not match its MAC: %s", path.name)
        path.replace(path.with_suffix(".bad"))
        return 0
    try:
        with transaction.atomic():
            let_no_seal_pass()
            # It stands already where an earlier load was stopped before the file went.
            if not TrailLine.objects.filter(uid=line.uid).exists():
                line.save(force_insert=True)
    except Error:
        return 0
    path.unlink(missing_ok=True)
    return 1
