"""The step grid: rows by the last sessions, one learner on one stoma in one procedure.

Three things look different because they are: a row not met before is an empty cell; a row met before and not
rated in this session is "?"; a row that did not apply then has no cell.
"""

from dataclasses import dataclass
from datetime import datetime

from teaching.bedside.band import stoma_name
from teaching.bedside.which import learner_name
from teaching.rules.checklist import Row, applicable
from teaching.rules.facts import Chart, Rating
from teaching.rules.huddle import when
from teaching.rules.items import Item
from teaching.rules.vocabulary import PROCEDURES

LAST = 6  # sessions shown; the list below the grid names them all
NARROW = 3  # of these, on a phone
RATED, EMPTY, MISSING, ABSENT = "rated", "empty", "missing", "absent"


@dataclass(frozen=True, slots=True)
class Session:
    """A column: one event, when in words and by whom."""

    event: str
    at: datetime
    when: str
    by: str
    older: bool


@dataclass(frozen=True, slots=True)
class Cell:
    """`kind` is rated, empty (not met before), missing ("?") or absent (did not apply)."""

    kind: str
    answer: str = ""
    practice: bool = False
    reported: bool = False
    older: bool = False


@dataclass(frozen=True, slots=True)
class GridRow:
    item: Item
    cells: tuple[Cell, ...]
    state: str


@dataclass(frozen=True, slots=True)
class Grid:
    title: str
    sessions: tuple[Session, ...]
    rows: tuple[GridRow, ...]

    @property
    def marks(self) -> set[tuple[str, bool]]:
        rated = (cell for row in self.rows for cell in row.cells if cell.kind == RATED)
        return {(cell.answer, cell.practice) for cell in rated}


def grids(chart: Chart, person: str, now: datetime, states: dict[tuple[str, str, str], str]) -> tuple[Grid, ...]:
    """A grid for each stoma, procedure and learner with a session; `states` by (stoma, code, learner)."""
    found = []
    for stoma in chart.stomas:
        rows = [row for row in applicable(chart, stoma, now) if row.rated and not row.item.topic]
        for procedure in dict.fromkeys(row.item.procedure for row in rows):
            own = [row for row in rows if row.item.procedure == procedure]
            for learner in chart.learners:
                ratings = _ratings(chart, stoma.key, learner.key, {row.code for row in own})
                if ratings:
                    who = learner_name(learner, person)
                    title = f"{PROCEDURES[procedure]}: {who}, {stoma_name(stoma)}"
                    found.append(_grid(title, chart, own, ratings, now, states))
    return tuple(found)


def _ratings(chart: Chart, stoma: str, learner: str, codes: set[str]) -> list[Rating]:
    """Seen or reported, oldest first: reported is shown, and counts for nothing."""
    found = [one for one in chart.ratings if (one.stoma, one.learner) == (stoma, learner) and one.code in codes]
    return sorted(found, key=lambda rating: rating.at)


def _grid(title, chart: Chart, rows: list[Row], ratings: list[Rating], now: datetime, states) -> Grid:
    events = list({rating.event: rating for rating in ratings}.values())[-LAST:]
    sessions = tuple(
        Session(one.event, one.at, when(one.at, chart.ward, now), one.witness.name, place < len(events) - NARROW)
        for place, one in enumerate(events)
    )
    return Grid(title, sessions, tuple(_row(chart, row, sessions, ratings, states) for row in rows))


def _row(chart: Chart, row: Row, sessions: tuple[Session, ...], ratings: list[Rating], states) -> GridRow:
    own = [rating for rating in ratings if rating.code == row.code]
    stoma, learner = ratings[0].stoma, ratings[0].learner
    cells = tuple(_cell(chart, row.code, session, own, stoma) for session in sessions)
    return GridRow(row.item, cells, states.get((stoma, row.code, learner), ""))


def _cell(chart: Chart, code: str, session: Session, own: list[Rating], stoma: str) -> Cell:
    here = [rating for rating in own if rating.event == session.event]
    if here:
        rating = here[-1]
        return Cell(RATED, rating.answer, rating.practice, rating.reported, session.older)
    applied = {row.code for row in applicable(chart, stoma, session.at)}
    if code not in applied:
        return Cell(ABSENT, older=session.older)
    met = any(rating.at <= session.at for rating in own)
    return Cell(MISSING if met else EMPTY, older=session.older)
