"""Where things stand in a clone, and the settings of the demo and of a real ward. Standard library only."""

import os
import secrets
from pathlib import Path

BASE = Path(__file__).resolve().parent.parent
VENV = BASE / ".venv"
VAR = BASE / "var"
DEMO_DATABASE = VAR / "demo.sqlite3"
DEMO_SETTINGS = VAR / "demo.env"
SIGN_INS = VAR / "demo-sign-ins.txt"
WARD = VAR / "ward"  # a real house: its database, its settings with its keys, its spool
LOCKS = {"demo": BASE / "requirements.txt", "test": BASE / "requirements-test.txt"}
OLDEST_PYTHON = (3, 11)  # said once more in __main__, before anything is imported


def write_private(path: Path, text: str) -> None:
    """Write a file that only its owner may read, whole or not at all."""
    path.parent.mkdir(parents=True, exist_ok=True)
    draft = path.with_suffix(".new")
    with open(os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w", encoding="utf-8") as file:
        file.write(text)
    draft.replace(path)


def demo_settings() -> dict[str, str]:
    """The demo's environment, made once with keys of its own: this machine only, so without HTTPS."""
    if not DEMO_SETTINGS.exists():
        write_settings(DEMO_SETTINGS, {"DATABASE_URL": f"sqlite:///{DEMO_DATABASE}", "HTTPS": "off"})
    return settings_in(DEMO_SETTINGS)


def ward_settings() -> dict[str, str]:
    """The environment of the real house that `start` made; empty before there is one."""
    return settings_in(WARD / "ward.env") if (WARD / "ward.env").exists() else {}


def write_settings(path: Path, chosen: dict[str, str]) -> None:
    """A settings file with two new keys of its own."""
    made = {"SECRET_KEY": secrets.token_urlsafe(64), "TRAIL_KEY": secrets.token_urlsafe(64)} | chosen
    write_private(path, "".join(f"{name}={value}\n" for name, value in made.items()))


def settings_in(path: Path) -> dict[str, str]:
    lines = path.read_text(encoding="utf-8").splitlines()
    return dict(line.split("=", 1) for line in lines if "=" in line and not line.startswith("#"))
