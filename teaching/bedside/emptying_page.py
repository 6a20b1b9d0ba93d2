"""What the recorder shows beside its form: each step with the level before, and the prompts."""

from dataclasses import dataclass
from datetime import datetime

from django.forms import BoundField

from teaching.bedside.band import Band, band_of
from teaching.bedside.caution_page import cautions_of
from teaching.bedside.which import learner_name, not_offered
from teaching.rules.checklist import applicable
from teaching.rules.facts import Rating
from teaching.rules.huddle import when
from teaching.rules.items import Item
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
    item: Item
    answer: BoundField
    reason: BoundField
    aids: BoundField
    reported: BoundField
    before: tuple[Before, ...]

    @property
    def opened(self) -> bool:
        """Unfolded when something was said in it, or something in it must be mended."""
        return bool(self.answer.value() or self.answer.errors)


@dataclass(frozen=True, slots=True)
class RecorderGroup:
    """The rows of one procedure; `stomas` are the keys it belongs to, so that a script hides the others."""

    procedure: str
    title: str
    stomas: str
    rows: tuple[RecorderRow, ...]
    prompts: tuple[Item, ...]


class RecorderPage:
    def __init__(self, stay, chart, form, now: datetime, asker):
        self.band: Band = band_of(stay, chart)
        self.form, self.chart, self.now = form, chart, now
        self.signs_as = asker.signs_as
        self.cautions = cautions_of(chart, now)
        self.not_offered = not_offered(chart, self.band.name, now)
        self.clock = f"{chart.ward.local(now):%H:%M}"
        self.asks_interpreter = any(
            need in ("interpreter", "language") for learner in chart.learners for need in learner.needs
        )
        self.groups = tuple(self._group(procedure) for procedure in self._procedures())

    @property
    def title(self) -> str:
        return "A swap, taught and seen" if self._procedures() == ["swap"] else "An emptying, taught and seen"

    def _procedures(self) -> list[str]:
        return list(dict.fromkeys(which.procedure for which in self.form.which.values()))

    def _group(self, procedure: str) -> RecorderGroup:
        keys = {which.stoma.key for which in self.form.which.values() if which.procedure == procedure}
        rows = [row for row in self.form.rows.values() if row.item.procedure == procedure]
        prompts = {
            row.code: row.item
            for key in keys
            for row in applicable(self.chart, key, self.now)
            if row.item.procedure == procedure and not row.rated
        }
        return RecorderGroup(
            procedure=procedure,
            title=PROCEDURES[procedure],
            stomas=" ".join(sorted(keys)),
            rows=tuple(self._row(row.item, keys) for row in rows),
            prompts=tuple(sorted(prompts.values(), key=lambda item: item.position)),
        )

    def _row(self, item: Item, stomas: set[str]) -> RecorderRow:
        form, code = self.form, item.code
        return RecorderRow(
            item,
            form[f"ratings.{code}"],
            form[f"reason.{code}"],
            form[f"aids.{code}"],
            form[f"reported.{code}"],
            tuple(self._before(newest) for newest in self._newest(code, stomas)),
        )

    def _newest(self, code: str, stomas: set[str]) -> list[Rating]:
        """The newest rating of this row by each learner on each stoma, the latest first."""
        found = [
            self.chart.by_row[stoma, code, learner.key][-1]
            for stoma in sorted(stomas)
            for learner in self.chart.learners
            if self.chart.by_row.get((stoma, code, learner.key))
        ]
        return sorted(found, key=lambda rating: rating.at, reverse=True)

    def _before(self, rating: Rating) -> Before:
        several = len(self.chart.learners) > 1
        who = learner_name(self.chart.learner(rating.learner), self.band.name) if several else "last"
        return Before(who, rating.answer, rating.practice, when(rating.at, self.chart.ward, self.now))

    @property
    def topics(self) -> list[tuple[Item, BoundField]]:
        """The essential topics, asked back in own words; only what was talked about is stored."""
        rows = (row.item for row in self.form.rows.values() if row.item.topic)
        return [(item, self.form[f"ratings.{item.code}"]) for item in rows]

    @property
    def topics_opened(self) -> bool:
        return any(field.value() or field.errors for _, field in self.topics)

    @property
    def marks(self) -> set[tuple[str, bool]]:
        """The marks this page refers to."""
        return {(one.answer, one.practice) for group in self.groups for row in group.rows for one in row.before}

    @property
    def skin(self) -> list[BoundField]:
        return [self.form[name] for name in self.form.fields if name.startswith("skin.")]

    @property
    def seen(self) -> list[BoundField]:
        return [self.form[name] for name in self.form.fields if name.startswith("finding.")]

    @property
    def signs(self) -> list[BoundField]:
        return [self.form[name] for name in self.form.fields if name.startswith("signs.")]

    @property
    def seen_opened(self) -> bool:
        return any(field.value() or field.errors for field in (*self.skin, *self.seen, *self.signs))

    @property
    def when_opened(self) -> bool:
        names = ("began_at", "place", "interpreter")
        return any(self.form.errors.get(name) for name in names)
