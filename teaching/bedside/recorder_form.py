"""The form of every recorder: which, alone part by part or row by row, what was seen, when; it gives an entry."""

from datetime import timedelta

from django import forms

from teaching.bedside.asking import ask, asked_of
from teaching.bedside.band import stoma_name
from teaching.bedside.powder import judged
from teaching.bedside.recorder_fields import last_fields, row_fields, tick, which_field
from teaching.bedside.recorders import Recorder, alone_name, part_of
from teaching.bedside.seen_fields import finding_in, seen_fields
from teaching.bedside.signs import sign_fields
from teaching.bedside.which import Which, choices, learner_name
from teaching.record.entries import CareEntry, RatingEntry, SessionEntry
from teaching.rules import vocabulary as words
from teaching.rules.checklist import Row, applicable
from teaching.rules.scene import has_agreed

NOTHING_SAID = "Tap this if they did it all alone, or open a step below and say how it went."
UNANSWERED = "More is said of this step, but not how it went. Tap how it went, or clear the rest."
MORE = ("reason", "aids", "reported", "practised", "note")
NOTHING_SAID_OF_PARTS = "Nothing is said of how it went. Open a part and tap its sentence, or answer a step in it."


class RecorderForm(forms.Form):
    """`stay` is the row, `chart` its facts, `at` the moment whose rows are asked (None: now).

    Nothing is chosen before somebody taps. `initial` holds a draft's taps, or what an account said
    (`recorder_initial.form_of`); its names are those of `recorder_fields`. `carried` are ratings of that account
    that no field here holds: they go into the entry as they are. `said_to_be_so` is what was asked when it was signed.
    """

    use_required_attribute = False  # what is missing is said in our own sentence; the browser still minds a number
    stands_for = {"ended_at": "minutes", "learner": "which"}

    def __init__(self, *args, recorder: Recorder, stay, chart, policy, now, at=None, carried=(), **kwargs):
        super().__init__(*args, **kwargs)
        self.recorder, self.stay, self.chart, self.policy = recorder, stay, chart, policy
        self.now, self.at, self.asked, self.carried = now, at or now, "", carried
        self.said_to_be_so: list[tuple[str, str]] = []
        self.which: dict[str, Which] = {one.value: one for one in choices(chart, self.at, recorder.offered)}
        self.applying = {
            one.stoma.key: applicable(chart, one.stoma.key, self.at) for one in self.which.values()
        }  # fmt: skip
        self.rows: dict[str, Row] = self._rated_rows()
        self.parts = list(dict.fromkeys(part_of(row.item) for row in self.rows.values() if not row.item.topic))
        person = stay.now.name
        self.learners = [
            (one.key, learner_name(one, person)) for one in chart.learners if has_agreed(chart, one, self.at)
        ]
        self.fields |= self._first_fields(person) | self._row_fields()
        self.fields |= last_fields(chart.ward.zone, self.initial.get("minutes"))
        self.fields |= seen_fields(recorder.name, chart=chart, policy=policy, now=now)
        self.fields |= sign_fields(policy, chart, now)

    def _rated_rows(self) -> dict[str, Row]:
        """The rated rows and essential topics of every stoma that can be chosen, by code, as they are taught."""
        asked = {one.procedure for one in self.which.values()} | {"topics"}
        found = {
            row.code: row
            for rows in self.applying.values()
            for row in rows
            if row.rated and row.item.procedure in asked
        }
        return dict(sorted(found.items(), key=lambda pair: pair[1].item.position))

    def _first_fields(self, person):
        known = [
            (one.value, f"{learner_name(one.learner, person)}: {stoma_name(one.stoma)}")
            for one in self.which.values()
        ]  # fmt: skip
        fields = which_field(self.recorder.asks, self.recorder.which, known)
        if not self.recorder.rates:
            return fields
        for part in self.parts:
            fields[alone_name(part)] = tick("All of this alone, nobody spoke")
            if part and len(self.learners) > 1:
                fields[f"part_who.{part}"] = forms.ChoiceField(
                    label="Who did this part, if somebody else",
                    choices=self.learners,
                    required=False,
                    widget=forms.RadioSelect,
                )
        fields["practice"] = tick("It was practice: water in the pouch, or a model")
        return fields

    def _row_fields(self):
        fields = {}
        for row in self.rows.values():
            fields |= row_fields(row, self.learners)
        return fields

    @property
    def chosen(self) -> Which | None:
        return self.which.get(self.cleaned_data.get("which", ""))

    def clean(self):
        cleaned = super().clean()
        if self.chosen:
            ratings, began = self.ratings(), self.times()[0]
            if self.recorder.rates and not ratings:
                self.add_error(*(("alone", NOTHING_SAID) if "alone" in self.fields else (None, NOTHING_SAID_OF_PARTS)))
            for row in self.own_rows():
                if self._more_said(row) and not (self._said(row) or self._alone(row)):
                    self.add_error(f"ratings.{row.code}", UNANSWERED)
            answers = {one.code: one.answer for one in ratings}
            found = asked_of(
                self.chart, self.chosen.stoma.key, began, finding_in(cleaned), self.policy, answers
            )  # fmt: skip
            ask(self, [one for one in found if one not in self.said_to_be_so])
        return cleaned

    def keep_only_errors_of(self, *names):
        """For a step on the way: what is not filled in yet is no fault."""
        for name in [name for name in self.errors if name not in names]:
            del self.errors[name]

    def own_rows(self) -> list[Row]:
        """The rated rows of the stoma and procedure chosen, and its essential topics."""
        chosen = self.chosen
        asked = (chosen.procedure, "topics")
        return [row for row in self.applying[chosen.stoma.key] if row.rated and row.item.procedure in asked]

    def ratings(self) -> tuple[RatingEntry, ...]:
        """The rows opened, as they were said; the rest alone where their part's sentence was tapped, else not rated."""
        people = {str(one.uid): one for one in self.stay.learners.all()}
        own = [self._rating(row, people) for row in self.own_rows() if self._said(row) or self._alone(row)]
        return (*own, *self.carried)

    def _said(self, row: Row) -> str:
        return self.cleaned_data.get(f"ratings.{row.code}", "")

    def _more_said(self, row: Row) -> bool:
        """A reason, aids, a note and the like, which would be lost without an answer."""
        return any(self.cleaned_data.get(f"{name}.{row.code}") for name in MORE)

    def _alone(self, row: Row) -> bool:
        return not row.item.topic and self.cleaned_data.get(alone_name(part_of(row.item)), False)

    def _rating(self, row: Row, people) -> RatingEntry:
        cleaned, code, said = self.cleaned_data, row.code, self._said(row)
        unaided = judged(code, finding_in(cleaned)) if row.item.decision else words.UNAIDED
        practised = cleaned.get("practice", False) or cleaned.get(f"practised.{code}", False)
        return RatingEntry(
            learner=people[self._whose(row)],
            code=code,
            answer=said or unaided,
            entered_as="step" if said else "phase",
            practice=practised and not row.item.topic and said not in words.NOT_RATED_CODES,
            reported=cleaned.get(f"reported.{code}", False),
            reason=cleaned.get(f"reason.{code}", ""),
            aids=tuple(cleaned.get(f"aids.{code}", ())),
            note=cleaned.get(f"note.{code}", ""),
        )

    def _whose(self, row: Row) -> str:
        """The learner of a row: who is said to have done it, else its part, else whoever was tapped first."""
        said = self.cleaned_data.get
        return said(f"who.{row.code}") or said(f"part_who.{part_of(row.item)}") or self.chosen.learner.key

    def times(self, draft=None):
        """(began, ended). It began when it is said to have, else so long before now, else at the first tap."""
        began, minutes = self.cleaned_data.get("began_at"), self.cleaned_data.get("minutes")
        length = timedelta(minutes=int(minutes)) if minutes else None
        if began:
            return began, began + length if length else None
        if length:
            return self.now - length, self.now
        return (draft.begun_at if draft else self.now), None

    def entry(self, *, role, draft=None, client_skew_s=None) -> SessionEntry | CareEntry:
        """The session to sign; care given where nothing is rated, as when somebody met their stoma."""
        cleaned, ratings = self.cleaned_data, self.ratings()
        began, ended = self.times(draft)
        said = {
            "stay": self.stay,
            "stoma": self.stoma(),
            "procedure": self.chosen.procedure,
            "finding": finding_in(cleaned),
            "event_uid": draft.event_uid if draft else None,
            "client_skew_s": client_skew_s,
        }
        if not ratings:
            return CareEntry(at=began, **said)
        return SessionEntry(
            began_at=began,
            ended_at=ended,
            ratings=ratings,
            place=cleaned["place"],
            language=cleaned["language"],
            interpreter=cleaned["interpreter"],
            ended_how="broken-off" if cleaned.get("broken_off") else "finished",
            role=role,
            **said,
        )

    def stoma(self):
        """The row of the stoma chosen."""
        return next(one for one in self.stay.stomas.all() if str(one.uid) == self.chosen.stoma.key)
