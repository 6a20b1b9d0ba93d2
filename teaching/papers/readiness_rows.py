"""What a readiness record says of each essential row: where it stands, and the showings that count."""

from collections.abc import Iterator
from dataclasses import dataclass

from teaching.papers.dated import short
from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart, Learner, Rating
from teaching.rules.reasons import words
from teaching.rules.spoken import learner_name
from teaching.rules.standing import Standing
from teaching.rules.vocabulary import ANSWERS, GRADES, PROCEDURES


@dataclass(frozen=True, slots=True)
class Showing:
    """One thing seen: when, by whom, what was answered. `event` is its uid, by which a correction finds it."""

    when: str
    by: str
    answer: str
    practice: bool
    event: str


@dataclass(frozen=True, slots=True)
class RowSaid:
    """`needed` is what is still wanting, "" where the row is held."""

    code: str
    title: str
    state: str
    held: bool
    needed: str
    showings: tuple[Showing, ...]

    @property
    def both(self) -> tuple[Showing | None, ...]:
        """One for each column of the paper; None where it is still to come."""
        return (*self.showings, None, None)[:2]


@dataclass(frozen=True, slots=True)
class Group:
    """The essential rows of one procedure, one learner and one stoma; the procedure's code, its title, whose."""

    procedure: str
    title: str
    whose: str
    rows: tuple[RowSaid, ...]

    @property
    def count(self) -> str:
        return f"{sum(row.held for row in self.rows)} of {len(self.rows)} held"


def groups(chart: Chart, assessment: Assessment, person: str) -> Iterator[Group]:
    """In the order of teaching, the person before a helper. A learner of whom nothing was seen has no rows."""
    for stoma in chart.stomas:
        for learner in sorted(chart.learners, key=lambda one: (one.kind != "person", one.name)):
            own = [
                one for one in assessment.standings
                if (one.stoma, one.learner) == (stoma.key, learner.key) and one.row.essential
            ]
            if not any(one.last or one.evidence for one in own) and learner.kind == "helper":
                continue
            whose = _whose(chart, stoma.label, learner, person)
            for procedure in dict.fromkeys(one.row.item.procedure for one in own):
                rows = tuple(_row(chart, one) for one in own if one.row.item.procedure == procedure)
                yield Group(procedure, PROCEDURES[procedure], whose, rows)


def unseen(chart: Chart, assessment: Assessment, person: str) -> Iterator[str]:
    """Learners of whom nothing was seen at all, by name."""
    seen = {one.learner for one in assessment.standings if one.last or one.evidence}
    for learner in chart.learners:
        if learner.kind == "helper" and learner.key not in seen:
            yield learner_name(learner, person)


def _whose(chart: Chart, label: str, learner: Learner, person: str) -> str:
    parts = [learner_name(learner, person)]
    parts += [f"{label} stoma"] if len(chart.stomas) > 1 else []
    return ", ".join(parts)


def _row(chart: Chart, one: Standing) -> RowSaid:
    state = _state(one)
    needed = "" if one.held or not one.reasons else words(one.reasons[0])
    if needed.rstrip(".").lower() == state:
        needed = ""  # "not started" is said once
    showings = tuple(_showing(chart, rating, one.code) for rating in one.evidence)
    return RowSaid(one.code, one.row.item.title, state, one.held, needed, showings)


def _state(one: Standing) -> str:
    if one.row.item.topic and one.held:
        return "explained"
    if one.provisional:
        return "independent, on practice until real stool comes"
    return one.state


def _showing(chart: Chart, rating: Rating, code: str) -> Showing:
    by = rating.witness
    grade = GRADES.get(by.grade, by.grade)
    seen_by = f"{by.name}, {grade}" if by.name else grade
    if by.signed_off and by.grade != "stoma-nurse":
        seen_by += ", signed off to teach"
    if by.cosigned_by:
        seen_by += f", co-signed by a {GRADES.get(by.cosigned_by, by.cosigned_by)}"
    return Showing(short(rating.at, chart.ward), seen_by, _answer(chart, rating, code), rating.practice, rating.event)


def _answer(chart: Chart, rating: Rating, code: str) -> str:
    """The level, or what was judged; nothing for a topic, whose columns say it; and the row that lent it."""
    item = chart.checklist.by_code[rating.code]
    if item.topic:
        return ""
    level = rating.answer if rating.answer.isdigit() else ANSWERS[rating.answer].words.lower()
    return level if rating.code == code else f"{level}, from {PROCEDURES[item.procedure].lower()}"
