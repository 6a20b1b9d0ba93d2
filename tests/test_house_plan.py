"""The house plan of DEVELOPERS.md, held by reading imports. Each failure says which file and what to do."""

import ast
import re
from functools import cache
from pathlib import Path

import pytest

BASE = Path(__file__).resolve().parent.parent
APP = BASE / "teaching"
ROOMS = ("bedside", "discharge", "education", "setup")
LONGEST = 300
NO_SUCH_NAMES = {"utils", "helpers", "common", "services", "managers", "signals", "mixins"}
# In papers and exchange these may ask the record; every other file there builds from facts alone.
READERS = re.compile(r"^(urls|views|forms|read_\w+|\w+_(view|views|reader))$")
# What a rule may lean on: no Django, no clock, no files, no network, no chance.
PURE = {
    *("__future__", "abc", "bisect", "collections", "dataclasses", "datetime", "decimal", "enum"),
    *("fractions", "functools", "hashlib", "heapq", "itertools", "json", "math", "operator", "re"),
    *("numpy", "statistics", "string", "types", "typing", "zoneinfo"),
}
IMPURE_CALLS = {"open", "print", "input", "exec", "eval", "__import__"}
CLOCK = {"now", "utcnow", "today", "localtime", "localdate", "localnow", "monotonic", "perf_counter"}


def where(file: Path) -> str:
    return str(file.relative_to(BASE))


def python_files(folder: Path = APP) -> list[Path]:
    return sorted(file for file in folder.rglob("*.py") if "__pycache__" not in file.parts)


@cache
def tree(file: Path) -> ast.Module:
    return ast.parse(file.read_text(encoding="utf-8"), where(file))


def dotted(file: Path) -> str:
    parts = file.relative_to(BASE).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imported(file: Path) -> list[tuple[int, str]]:
    """(line, module) of every import, those inside functions too; a name that is a module counts as one."""
    found = []
    package = dotted(file).split(".") if file.name == "__init__.py" else dotted(file).split(".")[:-1]
    for node in ast.walk(tree(file)):
        if isinstance(node, ast.Import):
            found += [(node.lineno, name.name) for name in node.names]
        elif isinstance(node, ast.ImportFrom):
            before = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*before, *([node.module] if node.module else [])])
            for name in node.names:
                whole = BASE / Path(*module.split("."), name.name)
                deeper = whole.is_dir() or whole.with_suffix(".py").exists()
                found.append((node.lineno, f"{module}.{name.name}" if deeper else module))
    return found


def words(cell: str) -> set[str]:
    return {word.strip() for word in cell.replace(" only", "").split(",") if word.strip()}


@cache
def plan() -> dict[str, dict[str, set[str]]]:
    """{folder: {"all": may import}} from the table; papers and exchange: "builders", "readers and views"."""
    text = (BASE / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text.split("## House plan")[1].split("\n## ")[0]
    found: dict[str, dict[str, set[str]]] = {}
    for row in (line for line in table.splitlines() if line.startswith("| `")):
        folders, _, allowed = (cell.strip() for cell in row.strip("|").split("|"))
        for folder in re.findall(r"`(\w+)/", folders):
            for part in allowed.replace("`", "").split(";"):
                kind, _, names = part.rpartition(":")
                found.setdefault(folder, {}).setdefault(kind.strip() or "all", set()).update(words(names))
    return found


def allowed_in(file: Path) -> set[str]:
    folder = file.relative_to(APP).parts[0]
    entry = plan()[folder]
    kind = "readers and views" if READERS.match(file.stem) else "builders"
    return entry.get("all", set()) | entry.get(kind, set()) | {folder}


def fits(module: str, allowed: set[str]) -> bool:
    name = module.removeprefix("teaching.")
    return any(name == each or name.startswith(f"{each}.") for each in allowed)


def show(faults: list[str]) -> str:
    return "\n" + "\n".join(faults)


def test_the_plan_is_read_from_developers_md():
    assert plan()["rules"] == {"all": {"rules"}}
    pure = {"rules", "analysis"}
    assert plan()["papers"] == {"builders": pure, "readers and views": {"access", "record", *pure}}
    assert set(ROOMS) <= set(plan())


def test_every_folder_stands_in_the_plan():
    folders = {file.relative_to(APP).parts[0] for file in python_files() if file.parent != APP}
    missing = folders - set(plan())
    assert not missing, (
        f"Say in DEVELOPERS.md, House plan, what these are for and may import: {sorted(missing)}"
    )


@pytest.mark.parametrize("folder", sorted(p.name for p in APP.iterdir() if (p / "__init__.py").exists()))
def test_arrows_point_down(folder):
    faults = [
        f"{where(file)}:{line} imports {module}: {folder} may import only "
        f"{', '.join(sorted(allowed_in(file)))} (DEVELOPERS.md, House plan). Move the line to where it fits."
        for file in python_files(APP / folder)
        for line, module in imported(file)
        if module.split(".")[0] == "teaching" and not fits(module, allowed_in(file))
    ]
    assert not faults, show(faults)


def test_files_beside_the_folders_import_models_only():
    faults = [
        f"{where(file)}:{line} imports {module}: a file beside the folders may import teaching.models only."
        for file in APP.glob("*.py")
        for line, module in imported(file)
        if module.startswith("teaching") and not fits(module, {"models"})
    ]
    assert not faults, show(faults)


def test_rooms_do_not_see_each_other():
    faults = [
        f"{where(file)}:{line} imports {module}: what two rooms need belongs on a lower floor."
        for room in ROOMS
        for file in python_files(APP / room)
        for line, module in imported(file)
        if fits(module, set(ROOMS) - {room}) and module.startswith("teaching.")
    ]
    assert not faults, show(faults)


def impure(file: Path) -> list[str]:
    faults = []
    for line, module in imported(file):
        root = module.split(".")[0]
        if root not in PURE | {"teaching"}:
            faults.append(
                f"{where(file)}:{line} imports {module}: rules and analysis take facts and a moment."
            )
    for node in ast.walk(tree(file)):
        if not isinstance(node, ast.Call):
            continue
        if isinstance(node.func, ast.Name) and node.func.id in IMPURE_CALLS:
            faults.append(f"{where(file)}:{node.lineno} calls {node.func.id}: hand the content in instead.")
        if isinstance(node.func, ast.Attribute) and node.func.attr in CLOCK:
            faults.append(f"{where(file)}:{node.lineno} asks the clock: take the moment as a parameter.")
    return faults


@pytest.mark.parametrize("folder", ["rules", "analysis"])
def test_the_lowest_floor_is_pure(folder):
    files = python_files(APP / folder)
    assert files
    faults = [fault for file in files for fault in impure(file)]
    assert not faults, show(faults)


def test_impurity_would_be_seen(tmp_path, monkeypatch):
    """The test above can fail: each kind of impurity is found in a file that has it."""
    monkeypatch.setitem(globals(), "BASE", tmp_path)
    file = tmp_path / "rule.py"
    file.write_text("import time\nfrom django.db import models\nx = datetime.now()\ny = open('z')\n")
    assert len(impure(file)) == 4


def test_one_file_knows_the_pdf_library():
    users = [
        where(file)
        for folder in (APP, BASE / "ostomy_teach")
        for file in python_files(folder)
        if any(module.split(".")[0] == "weasyprint" for _, module in imported(file))
    ]
    assert len(users) <= 1, f"Only one file may import weasyprint; hand the content to it instead: {users}"


def test_no_file_has_a_name_that_says_nothing():
    found = [path for folder in (APP, BASE / "ostomy_teach", BASE / "tests") for path in folder.rglob("*")]
    faults = [
        f"{where(path)}: name it after what it does; if it fits nowhere, change the plan first."
        for path in found
        if path.suffix in {".py", ".html", ".css", ".js", ""}
        and NO_SUCH_NAMES & set(re.split(r"[_-]", path.stem))
    ]
    assert not faults, show(faults)


def test_no_file_is_too_long():
    folders = (APP, BASE / "ostomy_teach", BASE / "tests")
    files = [
        file
        for folder in folders
        for file in folder.rglob("*")
        if file.suffix in {".py", ".html", ".css", ".js"}
    ]
    counted = {
        where(file): len(file.read_text(encoding="utf-8").splitlines())
        for file in [*files, BASE / "manage.py", BASE / ".ci" / "run"]
        if "migrations" not in file.parts and "__pycache__" not in file.parts
    }
    assert len(counted) > 20
    faults = [
        f"{name} has {lines} lines, {LONGEST} at most: split it by what it does."
        for name, lines in counted.items()
        if lines > LONGEST
    ]
    assert not faults, show(faults)


def test_every_package_says_its_job():
    folders = {file.parent for folder in (APP, BASE / "ostomy_teach") for file in python_files(folder)}
    faults = [
        f"{where(folder)}/__init__.py: begin it with a docstring that says what the folder is for."
        for folder in sorted(folders)
        if not (folder / "__init__.py").exists() or not ast.get_docstring(tree(folder / "__init__.py"))
    ]
    assert not faults, show(faults)


def test_the_demos_people_are_named_in_the_demo_alone():
    """Elsewhere an example says "a nurse", "a helper"."""
    demo = APP / "management"
    told = "".join(file.read_text(encoding="utf-8") for file in python_files(demo / "demo"))
    people = set(re.findall(r'"([A-Z][a-z]+ [A-Z][a-z]+)"', told))
    files = [file for file in (*python_files(), *APP.rglob("*.html")) if demo not in file.parents]
    named = [(where(file), name) for file in files for name in people if name in file.read_text(encoding="utf-8")]
    assert len(people) > 10 and named == []
