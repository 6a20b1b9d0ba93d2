"""`test`: every test, and at the end what was skipped and why."""

import os
import subprocess
import sys

from ostomy_teach.demo import OURS

NOT_SIDE_BY_SIDE = ("-n", "--numprocesses", "--pdb", "--trace", "no:xdist")
CHOOSE = ("-m", "-k", "--lf", "--last-failed", "--deselect", "--ignore", "--collect-only")


def run(database: str | None, rest: list[str]) -> None:
    """Run pytest in this process's place; never returns. On every core and one more unless the options say otherwise.

    Where nothing is chosen, what is measured runs by itself, after the rest: two workers would slow each other.
    """
    for name in OURS:
        os.environ.pop(name, None)
    if database:
        os.environ["DATABASE_URL"] = database
    # One more than the cores, since a browser is waited for; file by file, since a file's tests share what they build.
    workers = str((os.cpu_count() or 1) + 1)
    together = ["-n", workers, "--dist", "loadfile", "--no-loadscope-reorder"]
    side_by_side = [] if any(word.startswith(NOT_SIDE_BY_SIDE) for word in rest) else together
    sys.stdout.flush()
    pytest = [sys.executable, "-m", "pytest", "-rs"]
    if any(not word.startswith("-") or word.startswith(CHOOSE) for word in rest):
        os.execv(sys.executable, [*pytest, *side_by_side, *rest])
    tested = subprocess.run([*pytest, *side_by_side, "-m", "not benchmark", *rest])
    if tested.returncode:
        raise SystemExit(tested.returncode)
    os.execv(sys.executable, [*pytest, "-s", "-m", "benchmark", *rest])
