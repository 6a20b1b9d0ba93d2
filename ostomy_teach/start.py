"""`start`: a real ward on settings and a database of its own. Never an invented person, never the demo's database."""

import io
import subprocess
import sys
import time
from argparse import Namespace
from pathlib import Path
from urllib.parse import urlsplit

from ostomy_teach import choices
from ostomy_teach.demo import MADE_UP, hold_alone, refuse_a_taken_port, say, settle_environment

ASKED = {
    "unit": "The unit's name",
    "zone": "Its time zone, such as Europe/London (it never changes)",
    "lead": "The first lead's name, as on the badge",
    "username": "The lead's sign-in name",
}
GRADE = "The lead's grade"
NOT_THE_DEMO = (
    "This is the demo's database, and its people are invented. A real ward needs its own: leave --database out, or "
    "name an empty one."
)


def serve(options: Namespace) -> None:
    """Open the unit where none stands yet, else go on with the same house; then serve until stopped."""
    began = time.monotonic()
    choices.WARD.mkdir(mode=0o700, parents=True, exist_ok=True)
    hold_alone(choices.WARD / "lock", "The ward")
    refuse_a_taken_port(options.port)
    settings = settled(options.database, options.host)
    refuse_the_demos_database(settings["DATABASE_URL"])
    settle_environment(settings)
    from ostomy_teach.house import collect_static, house, prove_guards, units

    if any(MADE_UP in name for name in units()):
        sys.exit(NOT_THE_DEMO)
    prove_guards()
    say("bringing the database up to date")
    bring_up_to_date(settings)
    prove_guards()
    open_the_first_unit(options, units())
    collect_static(say)
    address = f"https://{options.host}, behind your proxy; here " if options.host else ""
    house(options.port, ready=lambda: announce(address, options.port, time.monotonic() - began))


def settled(database: str | None, host: str | None) -> dict[str, str]:
    """The ward's settings: made once, with keys of their own, and from then on only read."""
    path = choices.WARD / "ward.env"
    if path.exists():
        kept = choices.ward_settings()
        given = {"DATABASE_URL": database, "ALLOWED_HOSTS": host}
        for name, value in given.items():
            if value and kept.get(name) != value:
                sys.exit(f"{name} of this ward is set already, in {path}. Change it there, or leave the option out.")
        return kept
    url = database or f"sqlite:///{choices.WARD / 'ward.sqlite3'}"
    refuse_the_demos_database(url)
    where = {"HTTPS": "on", "ALLOWED_HOSTS": host} if host else {"HTTPS": "off"}
    choices.write_settings(path, {"DATABASE_URL": url, **where, "VAR_DIR": str(choices.WARD)})
    say(f"made {path}, which only you can read. Keep a copy in a safe place: it holds the key of the trail")
    return choices.ward_settings()


def refuse_the_demos_database(url: str) -> None:
    """The file of the embedded demo, or a database the demo was once loaded into."""
    from ostomy_teach.demo import sign_ins_kept

    parts = urlsplit(url)
    demo = [choices.DEMO_DATABASE.resolve()] if parts.scheme.startswith("sqlite") else []
    if Path(parts.path.removeprefix("/")).resolve() in demo or sign_ins_kept(url).exists():
        sys.exit(NOT_THE_DEMO)


def bring_up_to_date(settings: dict[str, str]) -> None:
    """As the owner of the tables, where the web is not."""
    from ostomy_teach.house import migrate

    if "DATABASE_OWNER_URL" not in settings:
        return migrate()
    done = subprocess.run([sys.executable, "manage.py", "migrate", "--verbosity", "0"], cwd=choices.BASE)
    if done.returncode:
        sys.exit("The tables could not be brought up to date. Mend what stands above, then start again.")


def open_the_first_unit(options: Namespace, standing: list[str]) -> None:
    """Ask for what was not given; the lead's first password is printed once and kept nowhere."""
    from django.core.management import CommandError, call_command

    given = {name: getattr(options, name) for name in (*ASKED, "grade") if getattr(options, name)}
    if standing:
        say(f"going on with {', '.join(sorted(standing))}")
        if given:
            say("the unit and its lead stand already; another unit: manage.py --ward open_unit")
        return
    answers = {name: given.get(name) or asked(name, words) for name, words in ASKED.items()}
    if MADE_UP in answers["unit"]:
        sys.exit(f"A real unit is not called {MADE_UP}: that is how the demo's invented wards are known.")
    answers["grade"] = grade_of(given.get("grade"))
    said = io.StringIO()
    try:
        call_command("open_unit", answers.pop("unit"), stdout=said, **answers)
    except CommandError as fault:
        sys.exit(f"The unit is not open yet: {fault} Then start again.")
    print(f"\n{said.getvalue().strip()}\n", flush=True)


def asked(name: str, words: str) -> str:
    if not sys.stdin.isatty():
        sys.exit(f"{words}: not given. Add --{name}, or run this in a terminal, where it is asked for.")
    answer = ""
    while not answer:
        answer = input(f"  {words}: ").strip()
    return answer


def grade_of(given: str | None) -> str:
    """A grade by its code or its words. Nobody is a nurse unasked: a nurse who leads may fill what only one may."""
    from teaching.rules.vocabulary import GRADES

    *codes, last = GRADES
    known = {name: code for code, words in GRADES.items() for name in (code, words)}
    while True:
        said = given or asked("grade", f"{GRADE} ({', '.join(codes)} or {last})")
        code = known.get(said.strip().lower())
        if code:
            return code
        wrong = f"{GRADE}: {said!r} is none. Write one of: {', '.join(f'{code} ({GRADES[code]})' for code in GRADES)}."
        if given:
            sys.exit(f"The unit is not open yet. {wrong}")
        print(f"  {wrong}", flush=True)


def announce(address: str, port: int, seconds: float) -> None:
    print(f"Ready after {seconds:.1f} s: {address}http://127.0.0.1:{port}   (Ctrl+C stops it)", flush=True)
