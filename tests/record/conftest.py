"""For tests with several connections at once; other folders may import `file_database` from here."""

import sqlite3

import pytest
from django.db import connection


@pytest.fixture
def file_database(transactional_db, tmp_path):
    """SQLite in memory has no locks worth testing: a copy in a file, as on a ward. PostgreSQL as it is.

    Every connection opened meanwhile, in any thread, opens the file; the one in memory waits aside.
    """
    if connection.vendor != "sqlite" or not connection.is_in_memory_db():
        yield
        return
    connection.ensure_connection()
    memory, name = connection.connection, connection.settings_dict["NAME"]
    path = tmp_path / "ward.sqlite3"
    with sqlite3.connect(path) as copy:
        memory.backup(copy)
    copy.close()
    connection.connection, connection.settings_dict["NAME"] = None, str(path)
    connection.ensure_connection()  # the first to open the file turns WAL on
    yield
    connection.close()
    connection.connection, connection.settings_dict["NAME"] = memory, name
