"""python3 -m ostomy_teach demo | test | start: from a bare Python to a house that stands. Standard library only."""

import sys

# Before anything else is imported, and in words an old Python can read.
if sys.version_info < (3, 11):  # noqa: UP036
    sys.exit("This is Python %d.%d. Ostomy Teach needs 3.11 or newer." % sys.version_info[:2])  # noqa: UP031

import argparse
import subprocess

from ostomy_teach import environment, system_packages
from ostomy_teach.choices import BASE


def arguments(given: list[str]) -> tuple[argparse.Namespace, list[str]]:
    """The command and its options; what follows `test` goes on to pytest."""
    reader = argparse.ArgumentParser(prog="python3 -m ostomy_teach", description="Set up and run the house.")
    commands = reader.add_subparsers(dest="command", required=True, metavar="demo | test | start")
    demo = commands.add_parser("demo", help="serve the invented hospital on this machine", allow_abbrev=False)
    demo.add_argument("--port", type=port, default=8000, help="where to serve (8000)")
    demo.add_argument("--database", metavar="URL", help="an empty database instead of the embedded one")
    demo.add_argument("--fresh", action="store_true", help="make the embedded demo database anew")
    test = commands.add_parser(
        "test", help="run every test; further options go to pytest", allow_abbrev=False
    )
    test.add_argument("--database", metavar="URL", help="a PostgreSQL server to test on instead of SQLite")
    start = commands.add_parser("start", help="open and serve a real ward", allow_abbrev=False)
    start.add_argument("--unit", metavar="NAME", help="the unit's name")
    start.add_argument("--zone", help="its time zone, such as Europe/London; it never changes")
    start.add_argument("--lead", metavar="NAME", help="the first lead's name, as on the badge")
    start.add_argument("--username", help="what the lead writes to sign in")
    start.add_argument("--grade", help="the lead's grade: stoma-nurse, registered, student, assistant or other")
    start.add_argument("--port", type=port, default=8000, help="where to serve (8000)")
    start.add_argument("--database", metavar="URL", help="an empty database of yours instead of a file here")
    start.add_argument("--host", metavar="NAME", help="the name people type; HTTPS on, behind a proxy of yours")
    options, rest = reader.parse_known_args(given)
    if rest and options.command != "test":
        {"demo": demo, "start": start}[options.command].error(f"not known: {' '.join(rest)}")
    if options.command == "demo" and options.fresh and options.database:
        demo.error("--fresh is for the embedded demo database; no other is ever deleted. Leave one out.")
    return options, rest


def port(text: str) -> int:
    if not text.isdigit() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError("write a whole number from 1 to 65535, such as 8000")
    return int(text)


def main() -> None:
    options, rest = arguments(sys.argv[1:])
    kind = "test" if options.command == "test" else "demo"  # a real ward stands in what the demo stands in
    if not environment.inside():
        print(f"Ostomy Teach {options.command}", flush=True)
    try:
        system_packages.see_to(kind, venv_stands=bool(environment.venv_version()))
        if not environment.stands(kind):
            environment.build(kind)
    except subprocess.CalledProcessError as fault:
        sys.exit(
            f"The set-up stopped at: {' '.join(map(str, fault.cmd[:4]))} ... Mend that, then run this again."
        )
    if not environment.inside():
        environment.enter(["-m", "ostomy_teach", *sys.argv[1:]])
    if options.command == "demo":
        from ostomy_teach.demo import serve as serve_the_demo

        serve_the_demo(options.port, options.database, options.fresh)
    elif options.command == "start":
        from ostomy_teach.start import serve as serve_the_ward

        serve_the_ward(options)
    else:
        from ostomy_teach.testing import run

        run(options.database, rest)


if __name__ == "__main__":
    import os

    os.chdir(BASE)
    main()
