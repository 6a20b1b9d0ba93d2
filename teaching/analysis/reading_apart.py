"""Which rows two nurses read differently, and which two levels they put in each other's place. Nobody is named."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from teaching.analysis.agreement import Agreement, agreement
from teaching.rules.vocabulary import LEVEL_CODES

FEWEST_IN_A_ROW = 10
LOWEST_FIRST = tuple(sorted(LEVEL_CODES))

RowPair = tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class RowReading:
    """One row over `found.pairs` pairs; `apart` are the two levels most often put in each other's place, or None."""

    code: str
    found: Agreement
    apart: tuple[str, str] | None


@dataclass(frozen=True, slots=True)
class Reading:
    """`overall` and `rows` None and empty below `fewest` paired sessions. Rows read most differently come first."""

    fewest: int
    sessions: int
    overall: Agreement | None
    rows: tuple[RowReading, ...]


def reading_apart(sessions: Mapping[str, Sequence[RowPair]], fewest: int, seed: int = 0) -> Reading:
    """`sessions` by event: (row code, level of who taught, level of who rated beside). Only levels 01-06 count.

    `fewest` is the policy's floor: below so many sessions nothing but their number is shown.
    """
    levels = set(LOWEST_FIRST)
    levelled = {event: [pair for pair in pairs if {*pair[1:]} <= levels] for event, pairs in sessions.items()}
    paired = {event: pairs for event, pairs in levelled.items() if pairs}
    if len(paired) < fewest:
        return Reading(fewest, len(paired), None, ())
    overall = agreement({event: [pair[1:] for pair in pairs] for event, pairs in paired.items()}, LOWEST_FIRST, seed)
    codes = sorted({code for pairs in paired.values() for code, _, _ in pairs})
    rows = [_row(code, paired, seed) for code in codes]
    enough = [row for row in rows if row.found.sessions >= FEWEST_IN_A_ROW]
    widest_first = sorted(enough, key=lambda row: (row.found.agreed.value or 0, row.code))
    return Reading(fewest, len(paired), overall, tuple(widest_first))


def _row(code: str, paired: Mapping[str, Sequence[RowPair]], seed: int) -> RowReading:
    own = {event: [(a, b) for row, a, b in pairs if row == code] for event, pairs in paired.items()}
    found = agreement({event: pairs for event, pairs in own.items() if pairs}, LOWEST_FIRST, seed)
    apart = Counter((min(a, b), max(a, b)) for pairs in own.values() for a, b in pairs if a != b)
    # Between two that are as frequent, the higher levels: there a row is held or not.
    most = max(apart, key=lambda pair: (apart[pair], pair), default=None)
    return RowReading(code, found, most)
