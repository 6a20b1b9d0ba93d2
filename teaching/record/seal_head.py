"""The newest seal, kept outside the database too: a tail cut off together with its seals is missed there.

The log carries the same two values, so a hospital that ships its logs away holds them where nobody here can
change them.
"""

import json
import logging
from pathlib import Path

from django.conf import settings

from teaching.models import Seal

log = logging.getLogger(__name__)


def place() -> Path:
    return Path(settings.VAR_DIR) / "trail-head.json"


def keep(seal: Seal) -> None:
    """Write the seal's number and MAC down. A disk that cannot is said in the log and stops nothing."""
    log.info("Trail seal %d: %s", seal.number, seal.mac)
    try:
        if (seen() or {"number": 0})["number"] < seal.number:
            place().parent.mkdir(parents=True, exist_ok=True)
            draft = place().with_suffix(".new")
            draft.write_text(json.dumps({"number": seal.number, "mac": seal.mac}), encoding="utf-8")
            draft.replace(place())
    except OSError:
        log.exception("The newest seal could not be written to %s", place())


def seen() -> dict | None:
    """{"number", "mac"} of the newest seal written down; None where there is none."""
    try:
        found = json.loads(place().read_text(encoding="utf-8"))
        return {"number": int(found["number"]), "mac": str(found["mac"])}
    except FileNotFoundError:
        return None
    except (ValueError, KeyError, TypeError):
        return {"number": 0, "mac": ""}


def forget() -> None:
    """For a database made new on purpose (the demo): its trail begins again at seal 1."""
    place().unlink(missing_ok=True)
