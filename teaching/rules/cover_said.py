"""The cover by hour as words and as bars to draw: for a page and for a paper alike.

Where a helper or a leak service is counted, each part is said of everybody apart, then together.
Going to a care facility nothing is drawn: a nurse there has accepted all of it, or nobody has; nor of a stay at rest.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from teaching.rules.arrangements import FACILITY
from teaching.rules.cover import HOUR, Span
from teaching.rules.facts import Chart, Learner
from teaching.rules.home import PARTS
from teaching.rules.huddle import DAYS, spoken_date
from teaching.rules.in_place import newest
from teaching.rules.readiness import Cover, Readiness
from teaching.rules.readiness_said import at_rest
from teaching.rules.scene import has_agreed
from teaching.rules.spoken import learner_name
from teaching.rules.ward import Ward

SERVICE, LEAK_NURSE, TOGETHER = "service", "A nurse for a leak", "Together"
AT_REST = "Not drawn while teaching rests."
MUST_KNOW = "Nobody is counted at any hour before they have explained what must be known before going home."
NOBODY_THERE = "To a care facility: no nurse there has accepted all of the stoma's care yet."


@dataclass(frozen=True, slots=True)
class Bar:
    """`length` hours from hour `first` of the span; `kind` covered, bare, or "" where nobody need be there."""

    first: int
    length: int
    kind: str


@dataclass(frozen=True, slots=True)
class CoverRow:
    """One part of one stoma, done by one of them or by all: in full, in a sentence, in short, and the bars.

    `part`: what stands over this row and those that follow; "" where none does, or the one before has said it.
    """

    name: str
    said: str
    bars: tuple[Bar, ...]
    who: str = ""
    part: str = ""


@dataclass(frozen=True, slots=True)
class Tick:
    """Midnight on the ward's clock: the hour of the span it falls on, and the day that begins."""

    hour: int
    day: str


@dataclass(frozen=True, slots=True)
class CoverDrawing:
    """`hours` wide. `words`: the drawing said in sentences, one a row. `instead`: what is said where none is drawn.

    `why`: what keeps somebody who manages it alone from being counted; "" where nothing does.
    """

    hours: int
    rows: tuple[CoverRow, ...]
    ticks: tuple[Tick, ...]
    instead: str = ""
    why: str = ""

    @property
    def sentences(self) -> list[str]:
        """One for each part, with all that is said of it, and why."""
        found: list[str] = []
        for row in self.rows:
            if row.part or row.name == row.who:
                found.append(f"{row.part}. {row.who}: {row.said}" if row.part else f"{row.who}: {row.said}")
            else:
                found[-1] += f" {row.who}: {row.said}"
        return [*found, self.why] if found and self.why else found

    @property
    def words(self) -> str:
        return " ".join(self.sentences)


def cover_drawing(chart: Chart, readiness: Readiness, person: str) -> CoverDrawing:
    """Each hour from leaving to the first change after it, part by part. `person`: how the one it is about is named."""
    span = readiness.span
    if at_rest(chart):
        return CoverDrawing(span.count, (), (), AT_REST)
    if chart.goes_to == FACILITY:
        return CoverDrawing(span.count, (), (), _at_facility(chart, readiness))
    counted = [one for one in chart.learners if has_agreed(chart, one, readiness.at)]
    counted.sort(key=lambda one: (one.kind != "person", one.name, one.key))
    rows = tuple(row for one in readiness.cover for row in _rows(chart, one, span, counted, person))
    why = MUST_KNOW if any(gap.part == "know" for gap in readiness.gaps) else ""
    return CoverDrawing(span.count, rows, tuple(_midnights(span, chart.ward)), why=why)


def _at_facility(chart: Chart, readiness: Readiness) -> str:
    """Whose acceptance stands there; a gap says that it is not all accepted."""
    known = newest(chart, FACILITY, readiness.at)
    if known is None or any(gap.code == FACILITY for gap in readiness.gaps):
        return NOBODY_THERE
    told = (known.detail("accepted_by"), known.detail("name"))
    who = ", ".join(str(part).strip() for part in told if part)
    return f"{who}: has accepted emptying, leaks and changes, day and night."


def _rows(chart: Chart, cover: Cover, span: Span, counted: list[Learner], person: str) -> Iterator[CoverRow]:
    what = PARTS[cover.part][0].upper() + PARTS[cover.part][1:]
    title = f"{what}, {chart.stoma(cover.stoma).label} stoma" if len(chart.stomas) > 1 else what
    hours = dict(cover.by)
    apart = [(learner_name(one, person), hours.get(one.key, 0)) for one in counted]
    apart += [(LEAK_NURSE, hours[SERVICE])] if SERVICE in hours else []
    bars = _bars(cover.wanted & ~cover.bare, "covered") + _bars(cover.bare, "bare")
    whole = tuple(sorted(bars, key=lambda bar: bar.first))
    together = CoverRow(title, bare_words(cover, span, chart.ward), whole, title)
    if len(apart) == 1:
        yield together
        return
    for number, (who, there) in enumerate(apart):
        said = alone_words(cover.wanted, there, span, chart.ward)
        yield CoverRow(f"{title}, {who}", said, _bars(cover.wanted & there, "covered"), who, "" if number else title)
    yield replace(together, name=f"{title}, together", who=TOGETHER)


def _bars(hours: int, kind: str) -> tuple[Bar, ...]:
    return tuple(Bar(first, length, kind) for first, length in stretches(hours))


def bare_words(cover: Cover, span: Span, ward: Ward) -> str:
    """Where nobody could do it: the first time, and how many times more."""
    if not cover.bare:
        return "somebody at every hour asked for."
    if cover.bare == span.full:
        return "nobody at any hour."
    return f"nobody {_first_time(cover.bare, span, ward)}."


def alone_words(wanted: int, there: int, span: Span, ward: Ward) -> str:
    """Of one of them: every hour asked for, none, or the first time without, and how many times more."""
    without = wanted & ~there
    if not without:
        return "at every hour asked for."
    return f"not {_first_time(without, span, ward)}." if wanted & there else "at no hour."


def _first_time(hours: int, span: Span, ward: Ward) -> str:
    (first, length), *others = stretches(hours)
    since, until = (ward.local(span.hour(hour)) for hour in (first, first + length))
    more = "" if not others else ", and once more" if len(others) == 1 else f", and {len(others)} times more"
    return f"from {spoken_date(since.date())} {since:%H:%M} to {spoken_date(until.date())} {until:%H:%M}{more}"


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
