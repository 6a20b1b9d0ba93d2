"""What the recorder shows beside its form: the band, why somebody is not offered, topics, hard moments."""

from datetime import datetime
from functools import cached_property

from django.forms import BoundField
from django.urls import reverse

from teaching.bedside.band import Band, band_of
from teaching.bedside.caution_page import cautions_of
from teaching.bedside.recorder_parts import RecorderPart, parts_of
from teaching.bedside.recorders import title_of
from teaching.bedside.topics_page import first_now, waiting
from teaching.bedside.which import not_offered
from teaching.rules.assess import Assessment, assess
from teaching.rules.hard_moments import hard_moments
from teaching.rules.items import Item
from teaching.rules.topics import needs_interpreter


class RecorderPage:
    def __init__(self, stay, chart, form, now: datetime, asker):
        recorder = form.recorder
        self.band: Band = band_of(stay, chart)
        self.form, self.chart, self.now = form, chart, now
        self.taps = reverse(f"tap-{recorder.name}", args=[stay.uid])
        self.rates, self.signs_as, self.student = recorder.rates, asker.signs_as, asker.grade == "student"
        self.taught = self.rates and asker.grade != "assistant"  # an assistant is there and does not teach
        self.cautions = cautions_of(chart, now)
        self.not_offered = not_offered(chart, self.band.name, form.at, recorder.offered, recorder.without)
        self.clock = f"{chart.ward.local(now):%H:%M}"
        self.happened = f"now, {self.clock}"
        self.asks_interpreter = any(needs_interpreter(chart, learner) for learner in chart.learners)
        procedures = list(dict.fromkeys(one.procedure for one in form.which.values()))
        self.title = title_of(procedures[0], self.taught) if procedures else "Nothing to record here"
        self.parts: tuple[RecorderPart, ...] = parts_of(form, chart, self.band.name, now)
        self.signature = ""
        self.hard_moments = hard_moments(frozenset(procedures))

    @property
    def in_parts(self) -> bool:
        """Whether one sentence confirms a part, not the whole."""
        return any(part.alone for part in self.parts)

    @property
    def alone(self) -> BoundField | None:
        return self.form["alone"] if "alone" in self.form.fields else None

    @property
    def sign(self) -> str:
        if self.signature:
            return self.signature
        return "Sign: I taught and saw this" if self.taught else "Sign: I was there and saw this"

    @cached_property
    def _found(self) -> Assessment:
        return assess(self.chart, self.form.policy, self.now)

    @property
    def waits(self) -> str:
        """Why nobody is taught now; it stands before the topics."""
        return waiting(self._found)

    @cached_property
    def topics(self) -> list[tuple[Item, BoundField]]:
        """The essential topics to begin with, and any that was answered; only what was talked about is stored."""
        first = first_now(self.chart, self._found)
        rows = self._topics()
        return [row for row in rows if row[0].code in first or row[1].value() or row[1].errors]

    @property
    def other_topics(self) -> list[tuple[Item, BoundField]]:
        """The rest of the essential ones, behind one word."""
        first = {item.code for item, _ in self.topics}
        return [row for row in self._topics() if row[0].code not in first]

    def _topics(self) -> list[tuple[Item, BoundField]]:
        rows = (row.item for row in self.form.rows.values() if row.item.topic)
        return [(item, self.form[f"ratings.{item.code}"]) for item in rows]

    @property
    def topics_opened(self) -> bool:
        return any(field.value() or field.errors for _, field in self._topics())

    @property
    def marks(self) -> set[tuple[str, bool]]:
        """The marks this page refers to."""
        return {(one.answer, one.practice) for part in self.parts for row in part.rows for one in row.before}

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
        names = ("began_at", "minutes", "place", "language", "interpreter")
        return any(self.form.errors.get(name) for name in names)
