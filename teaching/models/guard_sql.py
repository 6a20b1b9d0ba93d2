"""How a guard is written, found and taken down on SQLite and on PostgreSQL."""

import re
from typing import Any, NamedTuple


class Key(NamedTuple):
    """A unique key of a SQLite table; `where` is the condition of a partial one, else empty."""

    columns: tuple[str, ...]
    where: str


class SQLite:
    @staticmethod
    def text(guard: Any) -> str:
        """The trigger as sqlite_master keeps it."""
        return (
            f'CREATE TRIGGER "{guard.name}" BEFORE {guard.event} ON "{guard.table}" WHEN {guard.refuses}\n'
            f"BEGIN SELECT RAISE(ABORT, '{guard.sentence}'); END"
        )

    @staticmethod
    def standing(cursor: Any, prefix: str) -> dict[tuple[str, str], str]:
        """(table, name) -> text of every guard there is."""
        cursor.execute("SELECT tbl_name, name, sql FROM sqlite_master WHERE type = 'trigger'")
        return {(table, name): sql for table, name, sql in cursor.fetchall() if name.startswith(prefix)}

    @classmethod
    def create(cls, cursor: Any, guard: Any) -> None:
        cursor.execute(cls.text(guard))

    @staticmethod
    def drop(cursor: Any, table: str, name: str) -> None:
        cursor.execute(f'DROP TRIGGER "{name}"')


class PostgreSQL:
    """A guard is a function and a trigger of the same name; the function's text is what is compared."""

    KINDS = {"UPDATE": "FOR EACH ROW", "DELETE": "FOR EACH ROW", "TRUNCATE": "FOR EACH STATEMENT"}

    @staticmethod
    def text(guard: Any) -> str:
        # 23000 is integrity_constraint_violation: Django makes it an IntegrityError, as SQLite's RAISE does.
        refusal = f"RAISE EXCEPTION USING ERRCODE = '23000', MESSAGE = '{guard.sentence}'"
        kept = "OLD" if guard.event == "DELETE" else "NULL"
        return f"BEGIN IF {guard.refuses} THEN {refusal}; END IF; RETURN {kept}; END"

    @staticmethod
    def standing(cursor: Any, prefix: str) -> dict[tuple[str, str], str]:
        """Guards of this schema. One that is disabled or fires too late counts as having no text."""
        cursor.execute(
            "SELECT c.relname, t.tgname, p.prosrc, t.tgenabled IN ('O', 'A') AND (t.tgtype & 2) = 2"
            " FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid JOIN pg_proc p ON p.oid = t.tgfoid"
            " WHERE NOT t.tgisinternal AND c.relnamespace = current_schema()::regnamespace"
            " AND starts_with(t.tgname, %s)",
            [prefix],
        )
        return {(table, name): text if holds else "" for table, name, text, holds in cursor.fetchall()}

    @classmethod
    def create(cls, cursor: Any, guard: Any) -> None:
        # pg_temp last: nobody's temporary table can pose as the table of permits.
        cursor.execute("SELECT quote_ident(current_schema())")
        schema = cursor.fetchone()[0]
        cursor.execute(
            f'CREATE OR REPLACE FUNCTION "{guard.name}"() RETURNS trigger LANGUAGE plpgsql '
            f"SET search_path = {schema}, pg_temp AS $guard${cls.text(guard)}$guard$"
        )
        cursor.execute(
            f'CREATE TRIGGER "{guard.name}" BEFORE {guard.event} ON "{guard.table}" '
            f'{cls.KINDS[guard.event]} EXECUTE FUNCTION "{guard.name}"()'
        )

    @staticmethod
    def drop(cursor: Any, table: str, name: str) -> None:
        cursor.execute(f'DROP TRIGGER "{name}" ON "{table}"')
        cursor.execute(f'DROP FUNCTION IF EXISTS "{name}"()')


def of(connection: Any) -> type[SQLite] | type[PostgreSQL]:
    return PostgreSQL if connection.vendor == "postgresql" else SQLite


def unique_keys(cursor: Any, table: str) -> list[Key]:
    """Every unique key the SQLite table has, the primary key first, as the database itself tells them."""
    cursor.execute(f'SELECT name FROM pragma_table_info("{table}") WHERE pk')
    keys = {Key(tuple(row[0] for row in cursor.fetchall()), "")}
    cursor.execute(f'SELECT name FROM pragma_index_list("{table}") WHERE "unique" ORDER BY name')
    for (index,) in cursor.fetchall():
        cursor.execute(f'SELECT name FROM pragma_index_info("{index}") ORDER BY seqno')
        columns = tuple(row[0] for row in cursor.fetchall())
        if None in columns:
            raise ValueError(f"{index} is unique over an expression, which no guard can check.")
        cursor.execute("SELECT sql FROM sqlite_master WHERE name = %s", [index])
        where = re.split(r"\bWHERE\b", cursor.fetchone()[0] or "", maxsplit=1, flags=re.IGNORECASE)[1:]
        keys.add(Key(columns, where[0].strip() if where else ""))
    return sorted(keys, key=lambda key: (key.columns != ("id",), key))


def stands_already(table: str, key: Key) -> str:
    """SQL, in a BEFORE INSERT trigger: a row with this key stands in the table. NULLs never meet."""
    same = " AND ".join(f'o."{column}" = NEW."{column}"' for column in key.columns)
    if not key.where:
        return f'EXISTS (SELECT 1 FROM "{table}" o WHERE {same})'
    # A partial key binds only rows that meet its condition: the row that stands, and the new one.
    columns = sorted(set(re.findall(r'"(\w+)"', key.where)))
    new = ", ".join(f'NEW."{column}" AS "{column}"' for column in columns)
    return (
        f'(EXISTS (SELECT 1 FROM "{table}" o WHERE {same} AND ({key.where})) '
        f"AND EXISTS (SELECT 1 FROM (SELECT {new}) WHERE {key.where}))"
    )
