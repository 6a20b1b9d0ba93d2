"""What the system must bring: venv, Pango for PDF, a browser for the tests. Standard library only."""

import ctypes
import ctypes.util
import importlib.util
import os
import shutil
import subprocess
import sys

# Debian package -> the library it brings, as it is loaded and as it is looked up elsewhere.
PANGO = {
    "libpango-1.0-0": ("libpango-1.0.so.0", "pango-1.0"),
    "libpangoft2-1.0-0": ("libpangoft2-1.0.so.0", "pangoft2-1.0"),
    "libharfbuzz-subset0": ("libharfbuzz-subset.so.0", "harfbuzz-subset"),
}
BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def loads(name: str, elsewhere: str) -> bool:
    try:
        ctypes.CDLL(name)
    except OSError:
        return ctypes.util.find_library(elsewhere) is not None
    return True


def missing(kind: str, venv_stands: bool) -> list[str]:
    """The Debian packages that `demo` or `test` still needs on this machine."""
    found = [package for package, library in PANGO.items() if not loads(*library)]
    if not venv_stands and not (importlib.util.find_spec("ensurepip") and importlib.util.find_spec("venv")):
        found.insert(0, f"python{sys.version_info.major}.{sys.version_info.minor}-venv")
    if kind == "test" and not any(map(shutil.which, BROWSERS)):
        found.append("chromium")
    return found


def may_install() -> bool:
    return os.geteuid() == 0 and shutil.which("apt-get") is not None


def apt_get(*words: str) -> None:
    quiet = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    done = subprocess.run(["apt-get", "-qq", *words], env=quiet, capture_output=True, text=True)
    if done.returncode:
        print(done.stderr, file=sys.stderr)
        raise subprocess.CalledProcessError(done.returncode, ["apt-get", *words])


def see_to(kind: str, venv_stands: bool) -> None:
    """Install what is missing where we may; else stop with the one line to run.

    Only the browser may stay away: the browser tests are then listed as skipped.
    """
    needed = missing(kind, venv_stands)
    if needed and may_install():
        print(f"  installing from Debian: {' '.join(needed)}", flush=True)
        apt_get("update")
        apt_get("install", "-y", "--no-install-recommends", *needed)
        needed = missing(kind, venv_stands)
    line = f"sudo apt-get update && sudo apt-get install -y {' '.join(needed)}"
    if needed == ["chromium"]:
        print(f"  no browser, so its tests will be skipped; to have it: {line}", flush=True)
    elif needed:
        sys.exit(
            f"This machine lacks {', '.join(needed)}. On Debian run this once, then start again:\n  {line}"
        )
