"""The one way to fill a new column of rows that stand: a named operation of a migration.

Only what no row could say before is filled in (a column that was not there); what was written is never
rewritten. The operation takes down the UPDATE guards of the tables it names, fills, puts them up again, and
leaves a trail line, all in the migration's one transaction.
"""

import uuid
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.db import migrations
from django.utils import timezone

from teaching.models.guards import Some, install_guards, lift_guards
from teaching.models.macs import line_mac


class Backfill(migrations.RunPython):
    """`Backfill("rating-share", models=["Rating"], fill=fill_shares)`; fill(apps, schema_editor), as in
    RunPython.

    Going back leaves what was filled: the column goes with the migration that made it.
    """

    def __init__(self, name: str, models: list[str], fill: Callable[[Any, Any], None]) -> None:
        super().__init__(self._run, migrations.RunPython.noop)
        self.name, self.models, self.fill = name, models, fill

    def deconstruct(self) -> tuple[str, list[Any], dict[str, Any]]:
        return type(self).__name__, [self.name], {"models": self.models, "fill": self.fill}

    def describe(self) -> str:
        return f"Backfill {self.name}: {', '.join(self.models)}"

    def _run(self, apps: Any, schema_editor: Any) -> None:
        connection = schema_editor.connection
        tables = [apps.get_model("teaching", model)._meta.db_table for model in self.models]
        updates = Some(tables, events=["UPDATE"])
        lift_guards(connection, updates)
        self.fill(apps, schema_editor)
        if connection.vendor == "postgresql":
            # Keys are checked late there, and a table with checks outstanding takes no trigger.
            schema_editor.execute("SET CONSTRAINTS ALL IMMEDIATE; SET CONSTRAINTS ALL DEFERRED")
        install_guards(connection, updates)
        self._leave_line(apps)

    def _leave_line(self, apps: Any) -> None:
        """In the shape the trail has at this migration; the model of today may have other columns."""
        line = apps.get_model("teaching", "TrailLine")(
            uid=uuid.uuid4(),
            at=timezone.now(),
            verb="backfill",
            outcome="done",
            object=self.name,
            key_id=settings.TRAIL_KEY_ID,
        )
        line.mac = line_mac(line)
        line.save(force_insert=True)
