"""`demo`: the invented hospital on an embedded database, served on this machine only."""

import fcntl
import hashlib
import io
import os
import socket
import sys
import time
from pathlib import Path

from ostomy_teach import choices

OURS = (
    "SECRET_KEY", "TRAIL_KEY", "TRAIL_KEY_ID", "DATABASE_URL", "DATABASE_OWNER_URL", "DATABASE_AS", "HTTPS",
    "ALLOWED_HOSTS", "PROXIES", "VAR_DIR", "SESSION_IDLE_MINUTES", "SESSION_HOURS", "LOG_LEVEL",
)  # fmt: skip
MADE_UP = "(made up)"  # in the name of every unit of the demo, and of no real one


def say(words: str) -> None:
    print(f"  {words}", flush=True)


def serve(port: int, database: str | None, fresh: bool) -> None:
    """Bring the demo database and static files up to date, then serve until stopped."""
    began = time.monotonic()
    hold_alone(choices.VAR / "demo.lock", "The demo")
    refuse_a_taken_port(port)
    if fresh or not (database or choices.SIGN_INS.exists()):  # without sign-ins it was left half made
        forget_the_demo()
    settle_environment(choices.demo_settings() | ({"DATABASE_URL": database} if database else {}))
    from ostomy_teach.house import collect_static, house, migrate, units

    if any(MADE_UP not in name for name in units()):
        sys.exit("This database holds a real ward. The demo is for an empty one; use: python3 -m ostomy_teach start")
    say("bringing the database up to date")
    migrate()
    sign_ins = loaded_demo(database)
    collect_static(say)
    house(port, ready=lambda: announce(port, sign_ins, time.monotonic() - began))


def hold_alone(path: Path, what: str) -> None:
    """One of a kind at a time in one clone, so that --fresh never takes a database from under another."""
    path.parent.mkdir(exist_ok=True)
    lock = os.open(path, os.O_CREAT | os.O_RDWR, 0o600)
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        sys.exit(f"{what} already runs from this folder. Stop that one first (Ctrl+C in its window).")


def refuse_a_taken_port(port: int) -> None:
    with socket.socket() as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind(("127.0.0.1", port))
        except OSError as fault:
            sys.exit(f"Port {port} cannot be used ({fault.strerror}). Choose another with --port.")


def settle_environment(settings: dict[str, str]) -> None:
    """These settings and no others, nothing the shell carries leaks in; then Django is set up on them."""
    for name in OURS:
        os.environ.pop(name, None)
    os.environ.update(settings)
    os.environ["DJANGO_SETTINGS_MODULE"] = "ostomy_teach.settings"
    from django.core.exceptions import ImproperlyConfigured

    try:
        import django

        django.setup()
    except ImproperlyConfigured as wrong:
        sys.exit(f"Cannot start:\n{wrong}")


def forget_the_demo() -> None:
    """Delete the embedded demo database and its sign-ins, and nothing else."""
    for ending in ("", "-wal", "-shm"):
        choices.DEMO_DATABASE.with_name(choices.DEMO_DATABASE.name + ending).unlink(missing_ok=True)
    choices.SIGN_INS.unlink(missing_ok=True)


def sign_ins_kept(database: str | None) -> Path:
    if not database:
        return choices.SIGN_INS
    return choices.SIGN_INS.with_stem(f"demo-sign-ins-{hashlib.sha256(database.encode()).hexdigest()[:12]}")


def loaded_demo(database: str | None) -> str:
    """Load the invented hospital into an empty database; return the sign-ins, kept from then on."""
    from django.contrib.auth import get_user_model
    from django.core.management import call_command

    kept = sign_ins_kept(database)
    if get_user_model().objects.exists():
        if kept.exists():
            return kept.read_text(encoding="utf-8")
        return "This database already has people in it: use their own sign-ins."
    say("loading the invented hospital")
    said = io.StringIO()
    call_command("load_demo", stdout=said)
    choices.write_private(kept, said.getvalue())
    return said.getvalue()


def announce(port: int, sign_ins: str, seconds: float) -> None:
    print(f"\n{sign_ins.strip()}\n", flush=True)
    print(f"Ready after {seconds:.1f} s: http://127.0.0.1:{port}   (Ctrl+C stops it)", flush=True)
