"""A file that cannot be taken: every fault at once, each a path and a sentence with its mend."""

import json
from difflib import get_close_matches
from pathlib import Path


class WrongFile(ValueError):
    """Raised when a file is refused whole. `faults` are sentences that begin with a path."""

    def __init__(self, faults: list[str]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(faults))


def load_json(path: str | Path) -> object:
    """The parsed JSON of a file. Raises WrongFile when it is not readable JSON or says one key twice."""
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except OSError as trouble:
        raise WrongFile(
            [f"{path}: cannot be read ({trouble.strerror}); check the name and its permissions."]
        ) from None
    except UnicodeDecodeError:
        raise WrongFile([f"{path}: is not UTF-8 text; save it as UTF-8."]) from None
    try:
        return json.loads(text, object_pairs_hook=_once)
    except json.JSONDecodeError as trouble:
        where = f"line {trouble.lineno}, column {trouble.colno}"
        raise WrongFile([f"{path}: is not JSON at {where} ({trouble.msg}); mend that place first."]) from None


def did_you_mean(word: object, known: object) -> str:
    """The mend for a word nobody knows: the nearest known one, or all of them."""
    choices = [str(choice) for choice in known]  # type: ignore[attr-defined]
    near = get_close_matches(str(word), choices, n=1, cutoff=0.75)
    return f"did you mean {near[0]}?" if near else f"use one of: {', '.join(choices)}."


def _once(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise WrongFile([f"{twice}: stands twice in the same object; keep one of them."])
    return found
