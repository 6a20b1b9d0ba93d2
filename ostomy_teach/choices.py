"""Where things stand in a clone, and the demo's own settings. Standard library only."""

import os
import secrets
from pathlib import Path

BASE = Path(__file__).resolve().parent.parent
VENV = BASE / ".venv"
VAR = BASE / "var"
DEMO_DATABASE = VAR / "demo.sqlite3"
DEMO_SETTINGS = VAR / "demo.env"
SIGN_INS = VAR / "demo-sign-ins.txt"
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
        made = {
            "SECRET_KEY": secrets.token_urlsafe(64),
            "TRAIL_KEY": secrets.token_urlsafe(64),
            "DATABASE_URL": f"sqlite:///{DEMO_DATABASE}",
            "HTTPS": "off",
        }
        write_private(DEMO_SETTINGS, "".join(f"{name}={value}\n" for name, value in made.items()))
    lines = DEMO_SETTINGS.read_text(encoding="utf-8").splitlines()
    return dict(line.split("=", 1) for line in lines if "=" in line and not line.startswith("#"))
