"""The database's own guards: record rows are added and nothing else, whoever asks and by whatever road.

Every model that keeps "record" gets triggers that refuse UPDATE, DELETE and, on PostgreSQL, TRUNCATE.
SQLite's INSERT OR REPLACE would overwrite without firing them (unless PRAGMA recursive_triggers is on), so
there an INSERT on a key that stands is refused before it starts. Both engines answer with
django.db.IntegrityError and a sentence.

DELETE lets go only what an open two-person permit names (a purge without its purge_done): the rows of its
stay, the stay, and the person once no stay of theirs is left. A guard's name carries a hash of its text, so
a changed guard is replaced. They are put up after every migrate: SQLite drops a table's triggers when a
migration rebuilds it.
"""

import hashlib
from collections.abc import Collection, Iterator
from typing import Any, NamedTuple

from django.apps import apps
from django.db import models, transaction

from teaching.models import guard_sql
from teaching.models.append_only import RECORD
from teaching.models.stays import Person, Stay
from teaching.models.trail import Purge, PurgeDone

PREFIX = "keep_"


class Guard(NamedTuple):
    """One trigger: refuses `event` on `table` with `sentence` wherever the SQL `refuses` is true."""

    table: str
    event: str
    refuses: str
    sentence: str

    @property
    def name(self) -> str:
        text = hashlib.sha256("\n".join(self).encode()).hexdigest()[:8]
        return f"{PREFIX}{self.table[:36]}_{self.event.lower()}_{text}"


def record_models() -> list[type[models.Model]]:
    """Every model of the house that is only ever added to."""
    models_here = apps.get_app_config("teaching").get_models()
    return [model for model in models_here if getattr(model, "keeps", "") == RECORD]


def bound_to_a_stay(model: type[models.Model]) -> bool:
    """Whether its rows carry `stay_id` and go when their stay is purged."""
    return any(field.name == "stay" and field.related_model is Stay for field in model._meta.fields)


def expected_guards(connection: Any) -> list[Guard]:
    """The guards this database should have: those of the record tables that stand in it."""
    with connection.cursor() as cursor:
        standing = set(connection.introspection.table_names(cursor))
        found: list[Guard] = []
        for model in record_models():
            if model._meta.db_table in standing:
                found += _guards_of(model, connection.vendor, cursor)
    return found


def missing_guards(connection: Any) -> list[str]:
    """A sentence for each guard that is not there, is switched off, or has another text. None: they hold."""
    with connection.cursor() as cursor:
        standing = guard_sql.of(connection).standing(cursor, PREFIX)
    return [
        f"{guard.table} is not guarded against {guard.event}. Run: manage.py migrate"
        for guard in expected_guards(connection)
        if standing.get((guard.table, guard.name)) != guard_sql.of(connection).text(guard)
    ]


class Some(NamedTuple):
    """Which guards: those of these tables and these events, or (None) of all."""

    tables: Collection[str] | None = None
    events: Collection[str] | None = None

    def holds(self, table: str, name: str) -> bool:
        event = name.rsplit("_", 2)[-2].upper()
        return (self.tables is None or table in self.tables) and (self.events is None or event in self.events)


ALL = Some()


def install_guards(connection: Any, some: Some = ALL) -> list[str]:
    """Put up what is missing, take down what is no longer meant; the names put up. Safe to call again."""
    engine = guard_sql.of(connection)
    wanted = {(guard.table, guard.name): guard for guard in expected_guards(connection)}
    with transaction.atomic(using=connection.alias), connection.cursor() as cursor:
        standing = engine.standing(cursor, PREFIX)
        right = {key for key, guard in wanted.items() if standing.get(key) == engine.text(guard)}
        missing = [key for key in wanted.keys() - right if some.holds(*key)]
        for key in standing.keys() - right:
            if some.holds(*key):
                engine.drop(cursor, *key)
        for key in missing:
            engine.create(cursor, wanted[key])
    return sorted(name for _, name in missing)


def lift_guards(connection: Any, some: Some = ALL) -> None:
    """Take guards down: for migrations, and to empty test tables."""
    engine = guard_sql.of(connection)
    with connection.cursor() as cursor:
        for key in engine.standing(cursor, PREFIX):
            if some.holds(*key):
                engine.drop(cursor, *key)


def _guards_of(model: type[models.Model], vendor: str, cursor: Any) -> Iterator[Guard]:
    table = model._meta.db_table
    only = f"{table} rows are only ever added"
    yield Guard(table, "UPDATE", "1 = 1", f"{only}: write a newer row instead of changing one.")
    yield Guard(table, "DELETE", _holds(model), f"{only}: none is deleted without an open two-person purge.")
    if vendor == "postgresql":
        yield Guard(table, "TRUNCATE", "1 = 1", f"{only}: the table is never emptied.")
    else:
        keys = guard_sql.unique_keys(cursor, table)
        taken = " OR ".join(guard_sql.stands_already(table, key) for key in keys)
        names = " or ".join(" and ".join(key.columns) for key in keys)
        # It speaks before the unique key itself could, so it begins with the same words.
        sentence = f"UNIQUE constraint failed: {only}, and one with the same {names} stands already."
        yield Guard(table, "INSERT", taken, sentence)


def _holds(model: type[models.Model]) -> str:
    """When a DELETE is refused, in SQL both engines read: OLD is the row that would go."""
    permit, done, stay = (each._meta.db_table for each in (Purge, PurgeDone, Stay))
    opened = f'SELECT 1 FROM "{permit}" p WHERE NOT EXISTS (SELECT 1 FROM "{done}" d WHERE d.purge_id = p.id)'
    if model is Stay:
        return f"NOT EXISTS ({opened} AND p.stay_key = OLD.id)"
    if bound_to_a_stay(model):
        return f"NOT EXISTS ({opened} AND p.stay_key = OLD.stay_id)"
    key = "id" if model is Person else next(
        (field.column for field in model._meta.fields if field.related_model is Person), None
    )  # fmt: skip
    if key is None:
        return "1 = 1"
    stays = f'EXISTS (SELECT 1 FROM "{stay}" s WHERE s.person_id = OLD.{key})'
    return f"NOT EXISTS ({opened} AND p.person_key = OLD.{key}) OR {stays}"
