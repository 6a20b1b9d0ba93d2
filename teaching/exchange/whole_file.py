"""The whole record of a stay as a file: its text, its hash, and back. Its keys are told in docs/whole-record.md."""

import json
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

from teaching.exchange.wrong_file import WrongFile, load_json


def whole_text(told: Mapping[str, Any]) -> str:
    """One row a line, so that two exports can be compared line by line."""
    parts = []
    for name, value in told.items():
        if isinstance(value, list) and value:
            rows = ",\n".join(f"  {json.dumps(row, ensure_ascii=False)}" for row in value)
            parts.append(f"{json.dumps(name)}: [\n{rows}\n]")
        else:
            parts.append(f"{json.dumps(name)}: {json.dumps(value, ensure_ascii=False)}")
    return "{\n" + ",\n".join(parts) + "\n}\n"


def load_whole(path: str | Path) -> tuple[Mapping[str, Any], str]:
    """The file's content, and the sha256 of its bytes. Raises WrongFile when it is not readable JSON."""
    told = load_json(path)
    if not isinstance(told, Mapping):
        raise WrongFile([f"{path}: is not one JSON object; take the file as it was exported."])
    return told, sha256(Path(path).read_bytes()).hexdigest()
