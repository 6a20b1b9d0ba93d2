"""The house's own migrations and, after them, some for tests alone: see tests/record/test_migrating.py."""

from pathlib import Path

from teaching import migrations

__path__ = [*migrations.__path__, str(Path(__file__).parent)]
NEWEST = max(file.stem for file in Path(migrations.__file__).parent.glob("0*.py"))
