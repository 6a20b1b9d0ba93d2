"""A query of a chart, put into SQL once and then only asked: working out the same SQL anew cost half of a save.

The SQL and the reading of each column are Django's own; only the keys change from one asking to the next.
"""

from collections import namedtuple
from collections.abc import Sequence
from functools import lru_cache
from typing import Any
from weakref import WeakKeyDictionary

from django.db import connection, connections

from teaching.models.append_only import Record

# By connection, since each has its own way to read a column; a closed thread's go with it.
_compiled: WeakKeyDictionary[Any, dict[tuple, Any]] = WeakKeyDictionary()


def read(model: type[Record], columns: tuple[str, ...], by: str, keys: Sequence[int]) -> list[Any]:
    """Named rows of a model whose `by` is one of the keys, oldest first; joined columns may repeat a row."""
    if not keys:
        return []
    known = _compiled.setdefault(connections[connection.alias], {})
    which = (model, columns, by, len(keys))
    if which not in known:
        known[which] = _compile(model, columns, by, keys)
    compiler, sql, converters = known[which]
    with connection.cursor() as cursor:
        cursor.execute(sql, tuple(keys))
        rows = cursor.fetchall()
    kind = _named(columns)
    return [kind._make(row) for row in compiler.apply_converters(rows, converters)]


def _compile(model: type[Record], columns: tuple[str, ...], by: str, keys: Sequence[int]) -> tuple[Any, str, Any]:
    asked = model._default_manager.filter(**{f"{by}__in": keys}).order_by("pk").values_list(*columns)
    compiler = asked.query.get_compiler(connection.alias)
    sql, parameters = compiler.as_sql()
    assert sorted(parameters) == sorted(keys), "nothing but the keys may be a parameter of a chart's query"
    return compiler, sql, compiler.get_converters([column[0] for column in compiler.select])


@lru_cache
def _named(columns: tuple[str, ...]) -> Any:
    return namedtuple("Row", columns)
