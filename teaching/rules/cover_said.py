"""The cover by hour as words and as bars to draw: for a page and for a paper alike."""

from collections.abc import Iterator
from dataclasses import dataclass

from teaching.rules.cover import HOUR, Span
from teaching.rules.facts import Chart
from teaching.rules.home import PARTS
from teaching.rules.huddle import DAYS, spoken_date
from teaching.rules.readiness import Cover, Readiness
from teaching.rules.ward import Ward


@dataclass(frozen=True, slots=True)
class Bar:
    """`length` hours from hour `first` of the span; `kind` covered, bare, or "" where nobody need be there."""

    first: int
    length: int
    kind: str


@dataclass(frozen=True, slots=True)
class CoverRow:
    """One part of one stoma: its name, what the bars say in a sentence, and the bars."""

    name: str
    said: str
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True)
class Tick:
    """Midnight on the ward's clock: the hour of the span it falls on, and the day that begins."""

    hour: int
    day: str


@dataclass(frozen=True, slots=True)
class CoverDrawing:
    """`hours` wide. `words`: the drawing said in sentences, one a row."""

    hours: int
    rows: tuple[CoverRow, ...]
    ticks: tuple[Tick, ...]

    @property
    def words(self) -> str:
        return " ".join(f"{row.name}: {row.said}" for row in self.rows)


def cover_drawing(chart: Chart, readiness: Readiness) -> CoverDrawing:
    """Each hour from leaving to the first change after it, part by part."""
    span = readiness.span
    rows = tuple(_row(chart, one, span) for one in readiness.cover)
    return CoverDrawing(span.count, rows, tuple(_midnights(span, chart.ward)))


def _row(chart: Chart, cover: Cover, span: Span) -> CoverRow:
    what = PARTS[cover.part][0].upper() + PARTS[cover.part][1:]
    name = f"{what}, {chart.stoma(cover.stoma).label} stoma" if len(chart.stomas) > 1 else what
    covered = cover.wanted & ~cover.bare
    bars = [Bar(first, length, "covered") for first, length in stretches(covered)]
    bars += [Bar(first, length, "bare") for first, length in stretches(cover.bare)]
    return CoverRow(name, bare_words(cover, span, chart.ward), tuple(sorted(bars, key=lambda bar: bar.first)))


def bare_words(cover: Cover, span: Span, ward: Ward) -> str:
    """Where nobody could do it: the first time, and how many times more."""
    bare = list(stretches(cover.bare))
    if not bare:
        return "somebody at every hour asked for."
    (first, length), *others = bare
    if length == span.count:
        return "nobody at any hour."
    since, until = (ward.local(span.hour(hour)) for hour in (first, first + length))
    more = "" if not others else ", and once more" if len(others) == 1 else f", and {len(others)} times more"
    return f"nobody from {spoken_date(since.date())} {since:%H:%M} to {spoken_date(until.date())} {until:%H:%M}{more}."


def stretches(hours: int) -> Iterator[tuple[int, int]]:
    """(first hour, how many) of each unbroken run of hours, in order."""
    first = 0
    while hours:
        gap = (hours & -hours).bit_length() - 1
        hours >>= gap
        first += gap
        length = ((hours + 1) & ~hours).bit_length() - 1
        yield first, length
        hours >>= length
        first += length


def _midnights(span: Span, ward: Ward) -> Iterator[Tick]:
    for number in range(span.count):
        here = ward.local(span.begins + number * HOUR)
        if here.hour == 0:
            yield Tick(number, DAYS[here.weekday()])
