"""`test`: every test, and at the end what was skipped and why."""

import os
import sys

from ostomy_teach.demo import OURS

NOT_SIDE_BY_SIDE = ("-n", "--numprocesses", "--pdb", "--trace", "no:xdist")


def run(database: str | None, rest: list[str]) -> None:
    """Run pytest in this process's place; never returns. On every core unless the options say otherwise."""
    for name in OURS:
        os.environ.pop(name, None)
    if database:
        os.environ["DATABASE_URL"] = database
    cores = str(os.cpu_count() or 1)
    side_by_side = [] if any(word.startswith(NOT_SIDE_BY_SIDE) for word in rest) else ["-n", cores]
    sys.stdout.flush()
    os.execv(sys.executable, [sys.executable, "-m", "pytest", "-rs", *side_by_side, *rest])
