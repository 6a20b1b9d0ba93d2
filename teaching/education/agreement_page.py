"""Do two nurses mean the same by a level? Three figures side by side, and the rows to talk about. Nobody is named."""

from dataclasses import dataclass

from teaching.analysis.agreement import Agreement, Figure
from teaching.analysis.reading_apart import FEWEST_PAIRED, Reading, RowReading
from teaching.rules.items import Checklist
from teaching.rules.vocabulary import ANSWERS


@dataclass(frozen=True, slots=True)
class Line:
    name: str
    said: str
    means: str


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the checklist; `apart` the two levels in words, "" where all agreed."""

    title: str
    pairs: int
    agreed: str
    kappa: str
    ac2: str
    apart: str


class AgreementPage:
    def __init__(self, unit, checklist: Checklist, reading: Reading):
        self.unit, self.checklist, self.reading = unit.name, checklist, reading
        self.floor = FEWEST_PAIRED

    @property
    def count(self) -> str:
        sessions = self.reading.sessions
        return "1 session rated by two" if sessions == 1 else f"{sessions} sessions rated by two"

    @property
    def lines(self) -> list[Line]:
        found = self.reading.overall
        if found is None:
            return []
        return [
            Line("Same level", figure(found.agreed, percent=True), f"of {found.pairs} pairs of ratings"),
            Line("Weighted kappa", figure(found.kappa), "1 is full agreement; it falls where most ratings are alone"),
            Line("AC2", figure(found.ac2), "1 is full agreement; it holds where most ratings are alone"),
            Line("Difference", self._difference(found), "levels, second less first; near 0: neither is milder"),
        ]

    def _difference(self, found: Agreement) -> str:
        return "n/a" if found.difference is None else f"{found.difference:+.2f}"

    @property
    def rows(self) -> list[Row]:
        return [self._row(row) for row in self.reading.rows]

    @property
    def talk_about(self) -> list[Row]:
        """For a huddle: up to three rows that were read differently, with the words of the two levels."""
        return [row for row in self.rows if row.apart][:3]

    def _row(self, row: RowReading) -> Row:
        item = self.checklist.by_code.get(row.code)
        apart = " or ".join(f"{level} {ANSWERS[level].words}" for level in row.apart) if row.apart else ""
        found = row.found
        return Row(
            item.title if item else row.code, found.pairs, figure(found.agreed, percent=True), figure(found.kappa),
            figure(found.ac2), apart,
        )  # fmt: skip


def figure(told: Figure, percent: bool = False) -> str:
    """Such as "0.82 (0.71 to 0.90)"; "n/a" where it cannot be said; no interval below ten sessions."""
    if told.value is None:
        return "n/a"
    words = "{:.0%}" if percent else "{:.2f}"
    value = words.format(told.value)
    if told.low is None or told.high is None:
        return value
    return f"{value} ({words.format(told.low)} to {words.format(told.high)})"
