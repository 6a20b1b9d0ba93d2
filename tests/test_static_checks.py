"""What can be seen without running the product: style, templates, types, migrations, and the two locks."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

BASE = Path(__file__).resolve().parent.parent
TYPED = ["teaching/rules", "teaching/analysis", "teaching/record"]
CHECKS = {
    "ruff": ["ruff", "check", "."],
    "djlint": ["djlint", "teaching", "--lint", "--quiet"],
    "mypy": ["mypy", *TYPED],
}


@pytest.mark.parametrize("check", CHECKS)
def test_clean_by(check):
    done = subprocess.run([sys.executable, "-m", *CHECKS[check]], cwd=BASE, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.django_db
def test_no_migration_is_pending():
    from django.core.management import call_command

    try:
        call_command("makemigrations", check=True, dry_run=True, verbosity=1)
    except SystemExit:
        pytest.fail("A model changed without its migration: run manage.py makemigrations.")


def pins(lock: str) -> dict[str, str]:
    text = (BASE / lock).read_text(encoding="utf-8")
    return dict(re.findall(r"^([A-Za-z0-9._-]+)(?:\[[^\]]*\])?==(\S+)", text, re.MULTILINE))


def test_the_test_lock_holds_every_production_package_at_the_same_version():
    production, test = pins("requirements.txt"), pins("requirements-test.txt")
    assert production["django"].startswith("5.2.")
    assert {name: test.get(name) for name in production} == production


@pytest.mark.parametrize("lock", ["requirements.txt", "requirements-test.txt"])
def test_every_package_of_a_lock_has_its_hashes(lock):
    entries = re.split(r"\n(?=\S)", (BASE / lock).read_text(encoding="utf-8").strip())
    assert len(entries) == len(pins(lock))
    assert [entry.split()[0] for entry in entries if "--hash=sha256:" not in entry] == []


@pytest.mark.parametrize("lock", ["requirements", "requirements-test"])
def test_every_package_asked_for_is_locked(lock):
    asked = re.findall(r"^([A-Za-z][\w-]*)", (BASE / f"{lock}.in").read_text(encoding="utf-8"), re.MULTILINE)
    locked = {name.lower().replace("_", "-") for name in pins(f"{lock}.txt")}
    assert [name for name in asked if name.lower() not in locked] == []
