"""How a policy is written down: a threshold is a Line, a sign that raises a caution is a Sign.

A hospital may override values; nonsense is refused whole, every fault in a sentence.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import cached_property
from hashlib import sha256
from typing import Any

from teaching.rules.vocabulary import CAUTION_LISTS

CLASSES = {"P": "published", "M": "value from memory", "C": "common practice, no source", "D": "worked out"}
SIDES = {"at least": "the bound itself is enough", "at most": "the bound itself still counts"}
SPANS = {"hours": timedelta(hours=1), "days": timedelta(days=1)}
OFF = "off"
ORDERED = (
    ("output_now", "output_today", "call now must not be the lower bound."),
    ("opening_most", "opening_least", "the most room must not be less than the least."),
    ("interval_most", "interval_least", "the longest usual interval must not be the shorter one."),
)
SIGN = "sign:"


@dataclass(frozen=True, slots=True)
class Line:
    """One threshold. `side` says how the bound is meant; a local value must lie from `least` to `most`."""

    name: str
    value: int
    unit: str
    why: str
    source: str
    class_: str
    side: str
    least: int
    most: int

    @property
    def amount(self) -> Any:
        """A timedelta for hours and days, else the number."""
        return self.value * SPANS[self.unit] if self.unit in SPANS else self.value


@dataclass(frozen=True, slots=True)
class Sign:
    """What raises a caution. `asked`: finding, output and wear are read from the record; tap asks the nurse.

    `applies` is a condition on the stoma (as in `checklist.py`); words may name a line in braces.
    """

    code: str
    list: str
    words: str
    asked: str
    applies: str
    why: str
    source: str
    class_: str


class PolicyRefused(ValueError):
    """Overrides that make no sense; `faults` are (name, sentence) pairs."""

    def __init__(self, faults: list[tuple[str, str]]) -> None:
        self.faults = tuple(faults)
        super().__init__(" ".join(f"{name}: {sentence}" for name, sentence in faults))


@dataclass(frozen=True)
class Policy:
    """Every value the rules lean on, by attribute or by name."""

    lines: tuple[Line, ...]
    signs: tuple[Sign, ...]

    @cached_property
    def values(self) -> dict[str, Any]:
        return {line.name: line.amount for line in self.lines}

    @cached_property
    def sign(self) -> dict[str, Sign]:
        return {sign.code: sign for sign in self.signs}

    def __getitem__(self, name: str) -> Any:
        return self.values[name]

    def __getattr__(self, name: str) -> Any:
        if name.startswith("_") or name in ("lines", "signs"):
            raise AttributeError(name)
        try:
            return self.values[name]
        except KeyError:
            raise AttributeError(f"{name} is not a line of the policy") from None

    @cached_property
    def version(self) -> str:
        """Twelve letters that change with any value or list of this policy."""
        told = {line.name: f"{line.value} {line.unit}" for line in self.lines}
        told |= {SIGN + sign.code: sign.list for sign in self.signs}
        return sha256(json.dumps(told, sort_keys=True).encode()).hexdigest()[:12]

    def words(self, sign: Sign) -> str:
        """The sign's words with this policy's own figures in them."""
        return sign.words.format(**{line.name: line.value for line in self.lines})

    def with_overrides(self, overrides: Mapping[str, object]) -> "Policy":
        """This policy with local values: {"spacing": 6, "emptying_date": "36 hours", "sign:gap": "off"}.

        Raises PolicyRefused with every fault; then nothing is taken over.
        """
        lines = {line.name: line for line in self.lines}
        signs = dict(self.sign)
        faults: list[tuple[str, str]] = []
        for name, value in overrides.items():
            try:
                if name.startswith(SIGN):
                    signs[name.removeprefix(SIGN)] = _local_sign(name, value, signs)
                else:
                    lines[name] = _local_line(name, value, lines)
            except ValueError as trouble:
                faults.append((name, str(trouble)))
        if not faults:
            faults += [
                (higher, f"is below {lower}; {why}")
                for higher, lower, why in ORDERED
                if higher in lines and lines[higher].value < lines[lower].value
            ]
        if faults:
            raise PolicyRefused(faults)
        return Policy(tuple(lines.values()), tuple(signs.values()))


def _local_line(name: str, value: object, lines: Mapping[str, Line]) -> Line:
    if name not in lines:
        raise ValueError(f"is not a line of the policy; the lines are {', '.join(sorted(lines))}.")
    line = lines[name]
    if isinstance(value, str):
        number, _, unit = value.strip().partition(" ")
        if unit.strip() != line.unit:
            raise ValueError(f'is in {line.unit}; write {line.value} or "{line.value} {line.unit}".')
        value = int(number) if number.isdecimal() else number
    if isinstance(value, bool) or not isinstance(value, int):
        raise ValueError(f"must be a whole number of {line.unit}, such as {line.value}.")
    if not line.least <= value <= line.most:
        raise ValueError(f"must be from {line.least} to {line.most} {line.unit}; {value} is not.")
    return replace(line, value=value)


def _local_sign(name: str, value: object, signs: Mapping[str, Sign]) -> Sign:
    code = name.removeprefix(SIGN)
    if code not in signs:
        raise ValueError(f"is not a sign of the policy; the signs are {', '.join(sorted(signs))}.")
    if value not in (*CAUTION_LISTS, OFF):
        raise ValueError(f"must be {', '.join(CAUTION_LISTS)} or {OFF}.")
    return replace(signs[code], list=str(value))
