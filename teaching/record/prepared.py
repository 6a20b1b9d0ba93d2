"""A query put into SQL once and then only asked: working out the same SQL anew cost half of a save.

The SQL and the reading of each column are Django's own; only the keys change from one asking to the next. PostgreSQL
keeps its plan of such a query too, as long as the connection lives: planning the joins took longer than running them.
"""

from collections import namedtuple
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any
from weakref import WeakKeyDictionary

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.models import Model, QuerySet
from psycopg import Cursor

# By connection, since each has its own way to read a column; a closed thread's go with it.
_compiled: WeakKeyDictionary[Any, dict[tuple, Any]] = WeakKeyDictionary()
# On PostgreSQL: planned for good from the second asking on, unless the list of keys is of a length that seldom returns.
PLANNED_AFTER, SHORT = 1, 100


def read(model: type[Model], columns: tuple[str, ...], by: str, keys: Sequence[int], **only: str) -> list[Any]:
    """Named rows of a model whose `by` is one of the keys, oldest first; joined columns may repeat a row.

    `only`: words that a column must hold, such as state="open".
    """
    if not keys:
        return []
    which = (model, columns, by, len(keys), *only)
    told: tuple[int | str, ...] = (*keys, *only.values())
    return _rows(which, lambda rows: rows.filter(**{f"{by}__in": keys}).filter(**only).order_by("pk"), told)


def read_locked(model: type[Model], columns: tuple[str, ...], by: str, keys: Sequence[int]) -> list[Any]:
    """The same, each row locked until the transaction ends, in one order for everybody. No joined columns."""
    if not keys:
        return []
    which = (model, columns, by, len(keys), "locked")
    return _rows(which, lambda rows: rows.select_for_update().filter(**{f"{by}__in": keys}).order_by("pk"), keys)


def read_all(model: type[Model], columns: tuple[str, ...]) -> list[Any]:
    """All rows of a small table, oldest first."""
    return _rows((model, columns, "all"), lambda rows: rows.order_by("pk"))


def newest(model: type[Model], columns: tuple[str, ...]) -> Any:
    """The row written last; None in an empty table."""
    found = _rows((model, columns, "newest"), lambda rows: rows.order_by("-pk")[:1])
    return found[0] if found else None


def _rows(which: tuple, asked: Callable[[QuerySet], QuerySet], told: Sequence[int | str] = ()) -> list[Any]:
    """`which` begins with the model and its columns and names the query; `asked` makes it, the first time only."""
    model, columns, *_ = which
    here = connections[DEFAULT_DB_ALIAS]
    known = _compiled.setdefault(here, {})
    if which not in known:
        known[which] = _compile(asked(model._default_manager.all()).values_list(*columns), told)
    compiler, sql, converters = known[which]
    rows = _ask(here, sql, tuple(told))
    if not rows:
        return []
    kind = _named(columns)
    return [kind._make(row) for row in compiler.apply_converters(rows, converters)]


def _ask(here: Any, sql: str, told: tuple[int | str, ...]) -> list[tuple]:
    """The driver is asked itself. Django's own cursor asks where queries are logged or watched; on PostgreSQL it writes
    the keys into the SQL, so that no two askings look alike to the database and no plan is kept.
    """
    if here.queries_logged or here.execute_wrappers or len(told) > SHORT:
        with here.cursor() as cursor:
            cursor.execute(sql, told)
            return cursor.fetchall()
    here.ensure_connection()
    here.validate_no_broken_transaction()
    with here.wrap_database_errors:
        if here.vendor == "postgresql":
            here.connection.prepare_threshold = PLANNED_AFTER
            return Cursor(here.connection).execute(sql, told).fetchall()
        return here.connection.execute(sql.replace("%s", "?"), told).fetchall()


def _compile(asked: QuerySet, told: Sequence[int | str]) -> tuple[Any, str, Any]:
    compiler = asked.query.get_compiler(DEFAULT_DB_ALIAS)
    sql, parameters = compiler.as_sql()
    assert list(parameters) == list(told), "nothing but what is told, in that order, may be a parameter"
    return compiler, sql, compiler.get_converters([column[0] for column in compiler.select])


@lru_cache
def _named(columns: tuple[str, ...]) -> Any:
    return namedtuple("Row", columns)
