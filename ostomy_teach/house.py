"""The served house: tables up to date, static files collected, gunicorn in front."""

import hashlib
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connections
from gunicorn.app.base import BaseApplication


def migrate() -> None:
    """Bring the tables and their guards up to date after Django's checks; a fault stops with a sentence."""
    try:
        call_command("migrate", verbosity=0, interactive=False)
    except CommandError as fault:
        sys.exit(f"The checks found a fault: {fault}")
    except DatabaseError as fault:
        sys.exit(
            f"The database cannot be used: {fault}".rstrip() + "\nFor the demo's own, --fresh makes it anew."
        )


def static_mark() -> str:
    """A hash over names, sizes and times of everything that would be collected."""
    from django.contrib.staticfiles.finders import get_finders

    found = hashlib.sha256()
    for finder in get_finders():
        for name, storage in finder.list([]):
            seen = Path(storage.path(name)).stat()
            found.update(f"{name} {seen.st_size} {seen.st_mtime_ns}\n".encode())
    return found.hexdigest()


def collect_static(say: Callable[[str], None]) -> None:
    """Collect and compress the static files where they changed since the last time."""
    mark = settings.STATIC_ROOT / ".mark"
    now = static_mark()
    if mark.exists() and mark.read_text() == now:
        return
    say("collecting static files")
    call_command("collectstatic", verbosity=0, interactive=False, clear=True)
    mark.write_text(now)


class House(BaseApplication):
    """Gunicorn on one address; no access log, since the trail is the record of who read what."""

    def __init__(self, options: dict[str, Any]) -> None:
        self.options = options
        super().__init__()

    def load_config(self) -> None:
        for name, value in self.options.items():
            self.cfg.set(name, value)

    def load(self) -> Any:
        from ostomy_teach.wsgi import application

        return application


def house(port: int, ready: Callable[[], None]) -> None:
    """Serve on this machine until stopped: two processes of four threads, since PDFs scale by process."""
    connections.close_all()  # no connection is shared with the processes forked next
    House(
        {
            "bind": f"127.0.0.1:{port}",
            "workers": 2,
            "threads": 4,
            "preload_app": True,
            "timeout": 60,
            "loglevel": "warning",
            "when_ready": lambda server: ready(),
        }
    ).run()
