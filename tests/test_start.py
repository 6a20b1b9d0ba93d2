"""The two commands: what they refuse, what they keep, and the demo served for real."""

import ast
import json
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from ostomy_teach import choices, demo, environment, system_packages
from ostomy_teach.__main__ import arguments

BASE = Path(__file__).resolve().parent.parent
BEFORE_IT_STANDS = ["__init__", "__main__", "choices", "environment", "system_packages"]


@pytest.mark.parametrize("name", BEFORE_IT_STANDS)
def test_until_the_environment_stands_only_the_standard_library_is_imported(name):
    top = ast.parse((BASE / "ostomy_teach" / f"{name}.py").read_text(encoding="utf-8")).body
    named = [node for node in top if isinstance(node, ast.Import | ast.ImportFrom)]
    roots = {
        part.split(".")[0]
        for node in named
        for part in (
            [node.module] if isinstance(node, ast.ImportFrom) else [each.name for each in node.names]
        )
    }
    ours = {
        each.name
        for node in named
        if isinstance(node, ast.ImportFrom) and node.module == "ostomy_teach"
        for each in node.names
    }
    assert roots - sys.stdlib_module_names <= {"ostomy_teach"}
    assert ours <= set(BEFORE_IT_STANDS)


def test_an_old_python_is_told_so():
    old = "import sys, runpy; sys.version_info = (3, 9, 2, 'final', 0); runpy.run_module('ostomy_teach')"
    done = subprocess.run([sys.executable, "-c", old], cwd=BASE, capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (1, "This is Python 3.9. Ostomy Teach needs 3.11 or newer.\n")


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ([], "required: demo | test"),
        (["serve"], "invalid choice: 'serve'"),
        (["demo", "--port", "0"], "write a whole number from 1 to 65535"),
        (["demo", "--port", "eighty"], "write a whole number from 1 to 65535"),
        (["demo", "--loud"], "not known: --loud"),
        (["demo", "--fresh", "--database", "postgres://h/n"], "no other is ever deleted. Leave one out."),
    ],
)
def test_a_wrong_option_is_refused_with_a_sentence(capsys, given, sentence):
    with pytest.raises(SystemExit) as stop:
        arguments(given)
    assert stop.value.code == 2
    assert sentence in capsys.readouterr().err


def test_options_of_pytest_are_passed_on():
    options, rest = arguments(["test", "--no-skips", "-x", "tests/rules"])
    assert (options.command, options.database, rest) == ("test", None, ["--no-skips", "-x", "tests/rules"])


@pytest.fixture
def other_var(tmp_path, monkeypatch):
    monkeypatch.setattr(choices, "VAR", tmp_path)
    for name in ("DEMO_DATABASE", "DEMO_SETTINGS", "SIGN_INS"):
        monkeypatch.setattr(choices, name, tmp_path / getattr(choices, name).name)
    return tmp_path


def test_the_demos_keys_are_made_once_and_for_the_owner_alone(other_var):
    first = choices.demo_settings()
    assert choices.demo_settings() == first
    assert (other_var / "demo.env").stat().st_mode & 0o777 == 0o600
    assert first["SECRET_KEY"] != first["TRAIL_KEY"]
    assert first["HTTPS"] == "off" and "ALLOWED_HOSTS" not in first  # so this machine only


def test_fresh_deletes_the_embedded_demo_database_and_nothing_else(other_var):
    gone = ["demo.sqlite3", "demo.sqlite3-wal", "demo.sqlite3-shm", "demo-sign-ins.txt"]
    kept = ["demo.env", "ward.sqlite3", "demo-sign-ins-0123.txt", "demo.sqlite3.copy"]
    for name in gone + kept:
        (other_var / name).write_text("x")
    demo.forget_the_demo()
    assert sorted(path.name for path in other_var.iterdir()) == sorted(kept)


def test_a_taken_port_is_said():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(SystemExit, match=r"cannot be used .* Choose another with --port"):
            demo.refuse_a_taken_port(taken.getsockname()[1])


@pytest.fixture
def other_venv(tmp_path, monkeypatch):
    """A .venv that stands: Python 3.11.2, the lock of the demo, its stamp."""
    lock = tmp_path / "requirements.txt"
    lock.write_text("django==5.2.1 --hash=sha256:0\n")
    monkeypatch.setattr(environment, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(environment, "PYTHON", tmp_path / ".venv" / "python")
    monkeypatch.setattr(environment, "STAMP", tmp_path / ".venv" / "stamp.json")
    monkeypatch.setattr(environment, "LOCKS", {"demo": lock, "test": lock})
    (tmp_path / ".venv").mkdir()
    (tmp_path / ".venv" / "python").touch()
    (tmp_path / ".venv" / "pyvenv.cfg").write_text("home = /usr/bin\nversion = 3.11.2\n")
    environment.STAMP.write_text(json.dumps(environment.wanted("demo")))
    return tmp_path


def test_an_environment_with_its_stamp_stands(other_venv):
    assert environment.stands("demo")


@pytest.mark.parametrize(
    "broken",
    [
        lambda place: (place / "requirements.txt").write_text("django==5.2.2 --hash=sha256:0\n"),
        lambda place: (place / ".venv" / "pyvenv.cfg").write_text("version = 3.12.1\n"),
        lambda place: (place / ".venv" / "python").unlink(),
        lambda place: (place / ".venv" / "stamp.json").unlink(),
        lambda place: (place / ".venv" / "stamp.json").write_text("{"),
    ],
    ids=["another lock", "another Python", "no Python", "no stamp", "half a stamp"],
)
def test_a_changed_environment_does_not_stand(other_venv, broken):
    broken(other_venv)
    assert not environment.stands("demo")


def test_a_failed_install_leaves_no_stamp(other_venv, monkeypatch):
    monkeypatch.setattr(environment, "install", lambda lock: (_ for _ in ()).throw(OSError("no network")))
    with pytest.raises(OSError, match="no network"):
        environment.build("demo")
    assert not environment.stands("demo")


def test_without_root_the_one_line_to_run_is_printed(monkeypatch):
    monkeypatch.setattr(system_packages, "loads", lambda name, elsewhere: False)
    monkeypatch.setattr(system_packages, "may_install", lambda: False)
    monkeypatch.setattr(system_packages.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(SystemExit) as stop:
        system_packages.see_to("demo", venv_stands=False)
    venv = f"python3.{sys.version_info.minor}-venv"
    assert str(stop.value).endswith(
        f"sudo apt-get install -y {venv} libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
    )


def test_only_the_browser_may_stay_away(monkeypatch, capsys):
    monkeypatch.setattr(system_packages.shutil, "which", lambda name: None)
    system_packages.see_to("demo", venv_stands=True)
    assert capsys.readouterr().out == ""
    system_packages.see_to("test", venv_stands=True)
    assert "sudo apt-get install -y chromium" in capsys.readouterr().out


def test_a_library_that_is_not_there_does_not_load():
    assert system_packages.loads("libpango-1.0.so.0", "pango-1.0")
    assert not system_packages.loads("libno-such-thing.so.9", "no-such-thing")
