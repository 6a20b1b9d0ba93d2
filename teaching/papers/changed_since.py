"""What a kept paper says that would be said otherwise now, for a cover sheet. The paper itself never changes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from teaching.papers.readiness_record import Person

# What of a paper's content is compared, and how its part is called.
COMPARED = {
    "result": "Result", "leaving": "Planned leaving", "because": "What the result leans on", "gaps": "What is wanting",
    "missing": "What is not known", "stomas": "Stoma, kit and size", "cautions": "Cautions",
    "groups": "Steps and topics", "helpers": "Helpers", "arrangements": "Arranged",
    "take_along": "Kit to take along", "visits": "Nurses' visits",
    "appointments": "Teaching booked", "to_do": "To do besides", "plan": "The plan", "policy": "Policy version",
    "parts": "The sheet", "lacking": "What is wanting",
}  # fmt: skip
# In which order the words of one line are said: a content once kept has its names in no order of ours.
IN_ORDER = ("whose", "title", "list", "name", "words", "state", "said", "needed", "who", "by")
NOT_SAID = ("event", "code", "procedure", "showings", "key")


@dataclass(frozen=True, slots=True)
class Change:
    """One part of the paper: lines that are no longer said, and lines that would be said now."""

    title: str
    gone: tuple[str, ...]
    new: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CoverSheet:
    person: Person
    kind: str
    headline: str
    changes: tuple[Change, ...]
    printed_by: str
    printed_at: str


def changes(kept: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Change]:
    """Part by part, of two contents of one kind. `now` as it would be kept, lists or tuples alike."""
    for key, title in COMPARED.items():
        then, today = list(lines(kept.get(key))), list(lines(now.get(key)))
        gone = tuple(line for line in then if line not in today)
        new = tuple(line for line in today if line not in then)
        if gone or new:
            yield Change(title, gone, new)


def lines(said: Any, before: str = "") -> Iterator[str]:
    """Every line that a part of a paper says: what stands together in one place is one line."""
    if isinstance(said, str):
        if said:
            yield f"{before}{said}"
    elif isinstance(said, Mapping):
        words = [said[name] for name in IN_ORDER if said.get(name) and isinstance(said[name], str)]
        told = f"{before}{': '.join(word.rstrip('.:') for word in words)}"
        inside = [said[name] for name in sorted(said) if name not in NOT_SAID and isinstance(said[name], list | tuple)]
        within = [line for one in inside for line in lines(one, f"{told}: " if words else before)]
        if within:
            yield from within
        elif words:
            yield told
    elif isinstance(said, list | tuple):
        for one in said:
            yield from lines(one, before)
