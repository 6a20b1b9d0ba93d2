"""The environment the house stands in: .venv with exactly the locked packages. Standard library only."""

import hashlib
import importlib.util
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

from ostomy_teach.choices import BASE, LOCKS, OLDEST_PYTHON, VENV

STAMP = VENV / "ostomy-teach.json"
PYTHON = VENV / "bin" / "python"


def inside() -> bool:
    return Path(sys.prefix).resolve() == VENV.resolve()


def wanted(kind: str) -> dict[str, str]:
    """What the stamp must say for `demo` or `test`: the Python of .venv, and the lock's hash."""
    return {"python": venv_version(), LOCKS[kind].name: hashlib.sha256(LOCKS[kind].read_bytes()).hexdigest()}


def venv_version() -> str:
    """The version in .venv/pyvenv.cfg, such as 3.11.2; empty where there is no working .venv."""
    try:
        lines = (VENV / "pyvenv.cfg").read_text(encoding="utf-8").splitlines()
    except OSError:
        return ""
    found = [line.split("=", 1)[1].strip() for line in lines if line.split("=")[0].strip() == "version"]
    return found[0] if found and PYTHON.exists() else ""


def stands(kind: str) -> bool:
    """Whether .venv holds the packages of `kind`, by its stamp."""
    try:
        stamp = json.loads(STAMP.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return False
    return bool(venv_version()) and wanted(kind).items() <= stamp.items()


def build(kind: str) -> None:
    """Make .venv where there is none that works, install the lock, and write the stamp last.

    Raises subprocess.CalledProcessError where venv or pip fails; the next start then takes it up again.
    """
    STAMP.unlink(missing_ok=True)
    version = tuple(int(part) for part in venv_version().split(".")[:2] if part.isdigit())
    if version < OLDEST_PYTHON:
        print(f"  making {VENV.name} with Python {sys.version.split()[0]}", flush=True)
        shutil.rmtree(VENV, ignore_errors=True)
        subprocess.run([sys.executable, "-m", "venv", str(VENV)], check=True)
    install(LOCKS[kind])
    # The test lock holds every production package at the same version (a test says so).
    held = wanted(kind) | (wanted("demo") if kind == "test" else {})
    draft = STAMP.with_suffix(".new")
    draft.write_text(json.dumps(held, indent=1), encoding="utf-8")
    draft.replace(STAMP)


def install(lock: Path) -> None:
    """pip installs exactly the lock, by hash; one line shows how far it is."""
    total = sum(1 for line in lock.read_text(encoding="utf-8").splitlines() if line[:1].isalnum())
    pip = [str(PYTHON), "-m", "pip", "install", "--require-hashes", "--no-input", "--progress-bar", "off"]
    pip += ["--disable-pip-version-check", "--only-binary", ":all:", "-r", str(lock)]
    print(f"  installing {total} packages from {lock.name}", flush=True)
    said: list[str] = []
    with subprocess.Popen(pip, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=BASE) as work:
        for line in work.stdout or ():
            said.append(line)
            seen = sum(1 for each in said if each.startswith(("Collecting", "Requirement already")))
            if line.startswith("Collecting") and (sys.stdout.isatty() or seen % 10 == 0):
                print(f"  {seen} of {total}", end="\r" if sys.stdout.isatty() else "\n", flush=True)
    if work.returncode:
        print("".join(said[-15:]), file=sys.stderr)
        raise subprocess.CalledProcessError(work.returncode, pip)


def enter(arguments: list[str]) -> None:
    """Go on inside .venv with the same arguments; never returns."""
    sys.stdout.flush()
    os.execv(str(PYTHON), [str(PYTHON), *arguments])


def enter_if_needed(arguments: list[str]) -> None:
    """For manage.py: use .venv where this Python has no Django; stop with a sentence where there is none."""
    if importlib.util.find_spec("django"):
        return
    if inside() or not venv_version():
        sys.exit("The environment does not stand yet. Run once: python3 -m ostomy_teach demo")
    enter(arguments)
