"""A query put into SQL once and then only asked: working out the same SQL anew cost half of a save.

The SQL and the reading of each column are Django's own; only the keys change from one asking to the next.
"""

from collections import namedtuple
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any
from weakref import WeakKeyDictionary

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.models import Model, QuerySet

# By connection, since each has its own way to read a column; a closed thread's go with it.
_compiled: WeakKeyDictionary[Any, dict[tuple, Any]] = WeakKeyDictionary()


def read(model: type[Model], columns: tuple[str, ...], by: str, keys: Sequence[int]) -> list[Any]:
    """Named rows of a model whose `by` is one of the keys, oldest first; joined columns may repeat a row."""
    if not keys:
        return []
    which = (model, columns, by, len(keys))
    return _rows(which, lambda rows: rows.filter(**{f"{by}__in": keys}).order_by("pk"), keys)


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


def _rows(which: tuple, asked: Callable[[QuerySet], QuerySet], keys: Sequence[int] = ()) -> list[Any]:
    """`which` begins with the model and its columns and names the query; `asked` makes it, the first time only."""
    model, columns, *_ = which
    here = connections[DEFAULT_DB_ALIAS]
    known = _compiled.setdefault(here, {})
    if which not in known:
        known[which] = _compile(asked(model._default_manager.all()).values_list(*columns), keys)
    compiler, sql, converters = known[which]
    with here.cursor() as cursor:
        cursor.execute(sql, tuple(keys))
        rows = cursor.fetchall()
    if not rows:
        return []
    kind = _named(columns)
    return [kind._make(row) for row in compiler.apply_converters(rows, converters)]


def _compile(asked: QuerySet, keys: Sequence[int]) -> tuple[Any, str, Any]:
    compiler = asked.query.get_compiler(DEFAULT_DB_ALIAS)
    sql, parameters = compiler.as_sql()
    assert sorted(parameters) == sorted(keys), "nothing but the keys may be a parameter of a prepared query"
    return compiler, sql, compiler.get_converters([column[0] for column in compiler.select])


@lru_cache
def _named(columns: tuple[str, ...]) -> Any:
    return namedtuple("Row", columns)
