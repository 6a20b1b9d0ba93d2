"""The parts of a recorder and their rows: the level before, what to watch for, the chooser, the words to teach with."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.forms import BoundField

from teaching.bedside.powder import powder_hint
from teaching.bedside.recorders import PARTS, alone_name, part_of
from teaching.bedside.seen_fields import finding_in
from teaching.bedside.which import learner_name
from teaching.rules.checklist import Row
from teaching.rules.facts import Chart, Rating
from teaching.rules.huddle import when
from teaching.rules.items import Item
from teaching.rules.level_chooser import QUESTIONS
from teaching.rules.vocabulary import PROCEDURES


@dataclass(frozen=True, slots=True)
class Before:
    """The newest answer in this row: whose (or "last", with one learner), the answer, when in words."""

    who: str
    answer: str
    practice: bool
    when: str


@dataclass(frozen=True, slots=True)
class RecorderRow:
    """One rated row; `more` are the fields that are seldom needed, `stomas` the keys it belongs to."""

    item: Item
    form: object
    stomas: str
    before: tuple[Before, ...]
    hint: str = ""

    @property
    def answer(self) -> BoundField:
        return self._field("ratings")

    @property
    def who(self) -> BoundField | None:
        return self._field("who")

    @property
    def reason(self) -> BoundField:
        return self._field("reason")

    @property
    def aids(self) -> BoundField:
        return self._field("aids")

    @property
    def reported(self) -> BoundField:
        return self._field("reported")

    @property
    def practised(self) -> BoundField:
        return self._field("practised")

    @property
    def note(self) -> BoundField:
        return self._field("note")

    def _field(self, name: str) -> BoundField | None:
        full = f"{name}.{self.item.code}"
        return self.form[full] if full in self.form.fields else None

    @property
    def unsure(self) -> list[tuple[str, list[tuple[str, str, str]]]]:
        """[(question, [(words, level, id of the answer it taps)])] for levels of help; none for a decision."""
        if self.item.decision:
            return []
        at = {choice.data["value"]: choice.id_for_label for choice in self.answer}
        return [(one.ask, [(said.words, said.level, at[said.level]) for said in one.answers]) for one in QUESTIONS]

    @property
    def more_opened(self) -> bool:
        return any(field and (field.value() or field.errors) for field in self._more)

    @property
    def _more(self):
        return (self.who, self.reason, self.aids, self.reported, self.practised, self.note)

    @property
    def opened(self) -> bool:
        """Unfolded when something was said in it, or something in it must be mended."""
        return bool(self.answer.value() or self.answer.errors or self.more_opened)


@dataclass(frozen=True, slots=True)
class RecorderPart:
    """What one sentence confirms, or all rows of one procedure; `stomas` are the keys it belongs to."""

    code: str
    title: str
    stomas: str
    alone: BoundField | None
    who: BoundField | None
    rows: tuple[RecorderRow, ...]
    prompts: tuple[Item, ...]

    @property
    def steps(self) -> str:
        return "1 step" if len(self.rows) == 1 else f"{len(self.rows)} steps"

    @property
    def opened(self) -> bool:
        said = [self.alone, self.who, *(row.answer for row in self.rows)]
        return any(field and (field.value() or field.errors) for field in said) or any(
            row.more_opened for row in self.rows
        )


def parts_of(form, chart: Chart, person: str, now: datetime) -> tuple[RecorderPart, ...]:
    """In the order of teaching. Rows of a stoma that is not the one tapped are hidden by the script alone."""
    procedures = {one.stoma.key: one.procedure for one in form.which.values()}
    found: dict[tuple[str, str], dict[str, dict[str, Row]]] = {}
    for key, rows in form.applying.items():
        for row in rows:
            if row.item.procedure == procedures[key]:
                part = found.setdefault((row.item.procedure, part_of(row.item)), {})
                part.setdefault(row.code, {})[key] = row
    parts = [_part(form, chart, person, now, *each, rows) for each, rows in found.items()]
    return tuple(sorted(parts, key=_place))


def _place(part: RecorderPart) -> int:
    return min(item.position for item in (*part.prompts, *(row.item for row in part.rows)))


def _part(form, chart, person, now, procedure, code, rows: dict[str, dict[str, Row]]) -> RecorderPart:
    own = sorted(rows.values(), key=lambda by_stoma: next(iter(by_stoma.values())).item.position)
    rated = [by_stoma for by_stoma in own if any(row.rated for row in by_stoma.values())]
    prompts = [next(iter(by_stoma.values())).item for by_stoma in own if by_stoma not in rated]
    return RecorderPart(
        code=code or procedure,
        title=PARTS[code] if code else PROCEDURES[procedure],
        stomas=_keys(key for by_stoma in own for key in by_stoma),
        alone=form[alone_name(code)] if code and alone_name(code) in form.fields else None,
        who=form[f"part_who.{code}"] if f"part_who.{code}" in form.fields else None,
        rows=tuple(_row(form, chart, person, now, by_stoma) for by_stoma in rated),
        prompts=tuple(prompts),
    )


def _row(form, chart: Chart, person: str, now: datetime, by_stoma: dict[str, Row]) -> RecorderRow:
    item = next(iter(by_stoma.values())).item
    keys = [key for key, row in by_stoma.items() if row.rated]
    before = tuple(_before(chart, person, newest, now) for newest in _newest(chart, item.code, keys))
    hint = powder_hint(finding_in(skin_on(form))) if item.code == "powder" else ""
    return RecorderRow(item, form, _keys(keys), before, hint)


def skin_on(form) -> dict:
    """What stands in the form's fields of the skin, checked or not."""
    return {name: form[name].value() or "" for name in form.fields if name.startswith("skin.")}


def _keys(keys: Iterable[str]) -> str:
    return " ".join(sorted(set(keys)))


def _newest(chart: Chart, code: str, stomas: list[str]) -> list[Rating]:
    """The newest rating of this row by each learner on each stoma, the latest first."""
    found = [
        chart.by_row[stoma, code, learner.key][-1]
        for stoma in sorted(stomas)
        for learner in chart.learners
        if chart.by_row.get((stoma, code, learner.key))
    ]
    return sorted(found, key=lambda rating: rating.at, reverse=True)


def _before(chart: Chart, person: str, rating: Rating, now: datetime) -> Before:
    who = learner_name(chart.learner(rating.learner), person) if len(chart.learners) > 1 else "last"
    return Before(who, rating.answer, rating.practice, when(rating.at, chart.ward, now))
