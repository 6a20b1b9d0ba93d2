"""A connection of somebody else's, outside Django: raw SQL in its own transaction."""

import sqlite3
from contextlib import closing, contextmanager

import psycopg
from django.db import connection


@contextmanager
def second_connection():
    """Needs the fixture `file_database`. `execute` as it stands; nothing is begun or committed by itself."""
    if connection.vendor == "sqlite":
        with closing(sqlite3.connect(connection.settings_dict["NAME"], isolation_level=None)) as other:
            yield other
        return
    wanted = connection.get_connection_params()
    login = {name: wanted[name] for name in ("dbname", "user", "password", "host", "port") if name in wanted}
    with closing(psycopg.connect(**login, autocommit=True)) as other:
        yield other
