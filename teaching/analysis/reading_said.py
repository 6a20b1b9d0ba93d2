"""Agreement in words, for the screen and the paper alike: three figures side by side, and the rows to talk about."""

from collections.abc import Mapping
from dataclasses import dataclass

from teaching.analysis.agreement import Agreement, Figure
from teaching.analysis.reading_apart import Reading, RowReading
from teaching.rules.vocabulary import ANSWERS

TALKED_ABOUT = 3  # rows for one huddle


@dataclass(frozen=True, slots=True)
class Line:
    name: str
    said: str
    means: str


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the checklist; `apart` the two levels in words, "" where all agreed; `levels` their codes."""

    title: str
    pairs: int
    agreed: str
    kappa: str
    ac2: str
    apart: str
    levels: tuple[str, ...] = ()


def count_said(reading: Reading) -> str:
    return "1 session rated by two" if reading.sessions == 1 else f"{reading.sessions} sessions rated by two"


def floor_said(reading: Reading) -> str:
    """Why nothing is shown yet; "" past the floor."""
    if reading.overall is not None:
        return ""
    return f"Shown from {reading.fewest} sessions rated by two on; fewer say more of who rated than of what was rated."


def lines(reading: Reading) -> tuple[Line, ...]:
    """The figures over all rows; none below the floor."""
    found = reading.overall
    if found is None:
        return ()
    return (
        Line("Same level", figure(found.agreed, percent=True), f"of {found.pairs} pairs of ratings"),
        Line("Weighted kappa", figure(found.kappa), "1 is full agreement; it falls where most ratings are alone"),
        Line("AC2", figure(found.ac2), "1 is full agreement; it holds where most ratings are alone"),
        Line("Difference", _difference(found), "levels, second less first; near 0: neither is milder"),
    )


def rows(reading: Reading, titles: Mapping[str, str]) -> tuple[Row, ...]:
    """Those read most differently first; `titles` by code."""
    return tuple(_row(row, titles) for row in reading.rows)


def talk_about(told: tuple[Row, ...]) -> tuple[str, ...]:
    """For a huddle: the first rows that were read differently, as questions."""
    apart = [row for row in told if row.apart][:TALKED_ABOUT]
    return tuple(
        f"{row.title}: most often read as {row.apart}. What would make it the one, what the other?" for row in apart
    )


def _row(row: RowReading, titles: Mapping[str, str]) -> Row:
    apart = " or ".join(f"{level} “{ANSWERS[level].words}”" for level in row.apart) if row.apart else ""
    found = row.found
    return Row(
        titles.get(row.code, row.code), found.pairs, figure(found.agreed, percent=True), figure(found.kappa),
        figure(found.ac2), apart, tuple(row.apart or ()),
    )  # fmt: skip


def _difference(found: Agreement) -> str:
    return "n/a" if found.difference is None else f"{found.difference:+.2f}"


def figure(told: Figure, percent: bool = False) -> str:
    """Such as "0.82 (0.71 to 0.90)"; "n/a" where it cannot be said; no interval below ten sessions."""
    if told.value is None:
        return "n/a"
    words = "{:.0%}" if percent else "{:.2f}"
    value = words.format(told.value)
    if told.low is None or told.high is None:
        return value
    return f"{value} ({words.format(told.low)} to {words.format(told.high)})"
