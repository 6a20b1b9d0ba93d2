"""The served house: tables up to date, static files collected, gunicorn in front."""

import hashlib
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connection, connections
from django.db.migrations.executor import MigrationExecutor
from gunicorn.app.base import BaseApplication

GUARDS_DOWN = (
    "Nothing is served: {number} of the guards that keep the record from being changed are missing. "
    "{first}. Find out who took them down; examine the trail (manage.py --ward examine_trail), "
    "then put them up again: manage.py --ward migrate"
)


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


def units() -> list[str]:
    """The names of the units in the database; none where it has no tables yet."""
    from teaching.models import Unit

    try:
        with connection.cursor() as cursor:
            if Unit._meta.db_table not in connection.introspection.table_names(cursor):
                return []
        return list(Unit.objects.values_list("name", flat=True))
    except DatabaseError as fault:
        sys.exit(f"The database cannot be used: {fault}".rstrip())


def prove_guards() -> None:
    """Stop where a guard of the record is missing, unless a migration that puts it up is still to come."""
    from teaching.models.guards import missing_guards

    executor = MigrationExecutor(connection)
    if executor.migration_plan(executor.loader.graph.leaf_nodes()):
        return
    if missing := missing_guards(connection):
        sys.exit(GUARDS_DOWN.format(number=len(missing), first=missing[0].split(". ")[0]))


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
