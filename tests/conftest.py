"""Set-up shared by all tests: the browser, and a run in which a skip is a failure."""

import gc
import os
import shutil
from contextlib import contextmanager

import pytest
from django.db import connection, transaction
from django.test import TransactionTestCase, client
from django.test.utils import CaptureQueriesContext

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
NO_BROWSER = "no Chromium on this machine: apt-get install chromium"


def pytest_addoption(parser):
    parser.addoption("--no-skips", action="store_true", help="a skipped test fails the run")
    parser.addoption(
        "--engine", action="store_true", help="only tests that ask the database, without a browser: for a second engine"
    )


def pytest_collection_modifyitems(config, items):
    """Without Chromium, tests in a browser are skipped; with --engine, what no engine can change is left out.

    Those in a browser begin, then those of the whole house: they take longest, and else all wait for them at the end.
    """
    if config.getoption("--engine"):
        left_out = [item for item in items if in_browser(item) or not asks_database(item)]
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if not in_browser(item) and asks_database(item)]
    whole_house = config.rootpath / "tests"
    items.sort(key=lambda item: (in_browser(item), item.path.parent == whole_house), reverse=True)
    for item in items:
        if not CHROMIUM and in_browser(item):
            item.add_marker(pytest.mark.skip(reason=NO_BROWSER))


def pytest_collection_finish():
    """What stands by now stays to the end: it is not looked over for garbage again and again."""
    gc.freeze()


def in_browser(item):
    return bool({"page", "context", "browser"} & set(getattr(item, "fixturenames", ())))


def asks_database(item):
    fixtures = {"db", "transactional_db", "file_database"} & set(getattr(item, "fixturenames", ()))
    return bool(fixtures or item.get_closest_marker("django_db"))


def pytest_terminal_summary(terminalreporter, config):
    if config.getoption("--no-skips") and terminalreporter.stats.get("skipped"):
        terminalreporter.write_line("A skipped test fails this run (--no-skips).", red=True)


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session, exitstatus):
    if not session.config.getoption("--no-skips") or hasattr(session.config, "workerinput"):
        return
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if exitstatus == 0 and reporter.stats.get("skipped"):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


@pytest.fixture(scope="session", autouse=True)
def emptied_tables():
    """Tests with real transactions empty every table: guards come down first; flush puts them up again.

    SQLite then counts anew, as after a rollback: the trail's examination holds its lines against that count.
    """
    from teaching.models.guards import lift_guards  # not before Django is set up

    usual = TransactionTestCase._fixture_teardown

    def lift_then_empty(self):
        lift_guards(connection)
        usual(self)
        if connection.vendor == "sqlite":
            with connection.cursor() as cursor:
                cursor.execute("DELETE FROM sqlite_sequence")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(TransactionTestCase, "_fixture_teardown", lift_then_empty)
        yield


@pytest.fixture(scope="session", autouse=True)
def context_of_the_page():
    """`response.context` is the page's own. One more for each small template of a widget took as long as the page."""
    usual = client.store_rendered_templates

    def first_only(store, *args, **kwargs):
        if "context" not in store:
            usual(store, *args, **kwargs)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(client, "store_rendered_templates", first_only)
        yield


@pytest.fixture(scope="module")
def module_record(django_db_setup, django_db_blocker):
    """What a module's own fixture writes stands for all its tests, and is rolled back after the last."""
    with django_db_blocker.unblock(), transaction.atomic():
        yield
        transaction.set_rollback(True)


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args):
    """Debian's own Chromium; as root it runs only without its sandbox."""
    as_root = ["--no-sandbox"] if os.geteuid() == 0 else []
    return browser_type_launch_args | {
        "executable_path": CHROMIUM,
        "args": [*as_root, "--disable-dev-shm-usage", "--disable-gpu"],
    }


@pytest.fixture
def assert_selects():
    """`with assert_selects(9):` exactly so many SELECTs. What an engine adds to guard a write is not counted."""

    @contextmanager
    def counting(number: int):
        with CaptureQueriesContext(connection) as caught:
            yield
        sent = [query["sql"] for query in caught.captured_queries]
        asked = [sql for sql in sent if sql.startswith("SELECT") and not sql.startswith("SELECT pg_")]
        assert len(asked) == number, "\n".join([f"{len(asked)} SELECTs, not {number}:", *asked])

    return counting
