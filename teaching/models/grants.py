"""What the web's own PostgreSQL role may do, where the house has two: add to the record, work with the rest.

Whoever migrates (the owner) grants it. The web role owns nothing, so it cannot take a guard down, and a
purge, which deletes, runs on the command line as the owner.
"""

from typing import Any

from teaching.models.guards import record_models

MIGRATIONS = "django_migrations"


def grants(connection: Any, role: str) -> list[str]:
    """The SQL statements, for the tables that stand in this database."""
    record = {model._meta.db_table for model in record_models()}
    quote = connection.ops.quote_name
    with connection.cursor() as cursor:
        tables = sorted(connection.introspection.table_names(cursor))
        cursor.execute("SELECT quote_ident(current_schema())")
        schema = cursor.fetchone()[0]
    statements = [
        f"GRANT USAGE ON SCHEMA {schema} TO {quote(role)}",
        f"REVOKE CREATE ON SCHEMA {schema} FROM {quote(role)}",
        f"GRANT USAGE ON ALL SEQUENCES IN SCHEMA {schema} TO {quote(role)}",
    ]
    for table in tables:
        may = "SELECT, INSERT" if table in record else "SELECT, INSERT, UPDATE, DELETE"
        may = "SELECT" if table == MIGRATIONS else may
        statements.append(f"REVOKE ALL ON {quote(table)} FROM {quote(role)}")
        statements.append(f"GRANT {may} ON {quote(table)} TO {quote(role)}")
    return statements


def grant_web_role(connection: Any, role: str) -> None:
    """Run them all in one transaction of the owner's connection."""
    with connection.cursor() as cursor:
        cursor.execute("; ".join(grants(connection, role)))
