"""The form of an emptying: which, alone or row by row, what was seen, when; it gives a SessionEntry."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.bedside.band import stoma_name
from teaching.bedside.seen_fields import finding_in, seen_fields
from teaching.bedside.signs import sign_fields
from teaching.bedside.which import Which, choices, learner_name
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.rules import vocabulary as words
from teaching.rules.checklist import Row, applicable

NOTHING_SAID = "Tap this if they did it all alone, or open a step below and say how it went."
WHICH = "Tap whose emptying this was, once they have said their name and birth date."


def answers_for(row: Row) -> list[tuple[str, str]]:
    """A topic's answers; levels or judgements, then why it was not rated. Never a preset, never 09."""
    if row.item.topic:
        return [(code, words.ANSWERS[code].words) for code in words.TOPIC_CODES]
    own = words.DECISION_CODES if row.item.decision else words.LEVEL_CODES
    return [(code, words.ANSWERS[code].words) for code in (*own, *words.NOT_RATED_CODES)]


class EmptyingForm(forms.Form):
    """`stay` is the row, `chart` its facts; nothing is chosen before somebody taps."""

    def __init__(self, *args, stay, chart, policy, now, **kwargs):
        super().__init__(*args, **kwargs)
        self.stay, self.chart, self.now = stay, chart, now
        self.which: dict[str, Which] = {which.value: which for which in choices(chart, now)}
        self.rows = rows_of(self.which.values(), chart, now)
        self.fields |= self._first_fields(stay.now.name) | self._row_fields() | self._last_fields()
        seen = seen_fields("emptying", chart=chart, policy=policy, now=now)
        self.fields |= seen | sign_fields(policy, chart, now)

    def _first_fields(self, person):
        said = [
            (which.value, f"{learner_name(which.learner, person)}: {stoma_name(which.stoma)}")
            for which in self.which.values()
        ]
        which = forms.ChoiceField(
            label="Who emptied, and which stoma",
            choices=said,
            widget=forms.RadioSelect,
            error_messages={"required": WHICH, "invalid_choice": WHICH},
        )
        return {
            "which": which,
            "alone": forms.BooleanField(label="All of this alone, nobody spoke", required=False),
            "practice": forms.BooleanField(label="It was practice: water in the pouch, or a model", required=False),
        }

    def _row_fields(self):
        fields = {}
        for row in self.rows.values():
            code, title = row.code, row.item.title
            fields[f"ratings.{code}"] = forms.ChoiceField(
                label=title, choices=answers_for(row), required=False, widget=forms.RadioSelect
            )
            if row.item.topic:
                continue
            fields[f"reason.{code}"] = forms.ChoiceField(
                label="If the level was lower: why",
                choices=list(words.LOWER_REASONS.items()),
                required=False,
                widget=forms.RadioSelect,
            )
            fields[f"aids.{code}"] = forms.MultipleChoiceField(
                label="Aids used (they never lower a level)",
                choices=list(words.AIDS.items()),
                required=False,
                widget=forms.CheckboxSelectMultiple,
            )
            fields[f"reported.{code}"] = forms.BooleanField(
                label="I was told this and did not see it (shown, never counted)", required=False
            )
        return fields

    def _last_fields(self):
        return {
            "began_at": WardTimeField(
                zone=self.chart.ward.zone,
                required=False,
                label="It happened earlier",
                help_text="Left empty, it happened just now.",
            ),
            "place": forms.ChoiceField(
                label="Where", choices=list(words.PLACES.items()), required=False, widget=forms.RadioSelect
            ),
            "interpreter": forms.ChoiceField(
                label="Who interpreted",
                choices=list(words.INTERPRETERS.items()),
                required=False,
                widget=forms.RadioSelect,
            ),
        }

    @property
    def chosen(self) -> Which | None:
        return self.which.get(self.cleaned_data.get("which", ""))

    def clean(self):
        cleaned = super().clean()
        if self.chosen and not self.ratings():
            self.add_error("alone", NOTHING_SAID)
        return cleaned

    def keep_only_errors_of(self, *names):
        """For a step on the way: what is not filled in yet is no fault."""
        for name in [name for name in self.errors if name not in names]:
            del self.errors[name]

    def ratings(self) -> tuple[RatingEntry, ...]:
        """The rows opened, as they were said; the rest alone if that was tapped, else not rated."""
        which, cleaned = self.chosen, self.cleaned_data
        learner = next(one for one in self.stay.learners.all() if str(one.uid) == which.learner.key)
        found = []
        for code in own_codes(which, self.chart, self.now):
            said = cleaned.get(f"ratings.{code}", "")
            topic = self.rows[code].item.topic
            if not said and (topic or not cleaned.get("alone")):
                continue
            unaided = "right" if self.rows[code].item.decision else words.UNAIDED
            found.append(
                RatingEntry(
                    learner=learner,
                    code=code,
                    answer=said or unaided,
                    entered_as="step" if said else "phase",
                    practice=cleaned.get("practice", False) and not topic and said not in words.NOT_RATED_CODES,
                    reported=cleaned.get(f"reported.{code}", False),
                    reason=cleaned.get(f"reason.{code}", ""),
                    aids=tuple(cleaned.get(f"aids.{code}", ())),
                )
            )
        return tuple(found)

    def entry(self, *, role, draft=None, client_skew_s=None) -> SessionEntry:
        """The session to sign. It began when it is said to have, else at the first tap, else now."""
        which, cleaned = self.chosen, self.cleaned_data
        return SessionEntry(
            stay=self.stay,
            stoma=self.stoma(),
            procedure=which.procedure,
            began_at=cleaned.get("began_at") or (draft.begun_at if draft else self.now),
            ratings=self.ratings(),
            finding=finding_in(cleaned),
            place=cleaned["place"],
            interpreter=cleaned["interpreter"],
            role=role,
            event_uid=draft.event_uid if draft else None,
            client_skew_s=client_skew_s,
        )

    def stoma(self):
        """The row of the stoma chosen."""
        return next(one for one in self.stay.stomas.all() if str(one.uid) == self.chosen.stoma.key)


def rows_of(which, chart, now) -> dict[str, Row]:
    """The rated rows and essential topics of every stoma that can be chosen, by code, as they are taught."""
    procedures = {each.procedure for each in which}
    found = {
        row.code: row
        for stoma in {each.stoma.key for each in which}
        for row in applicable(chart, stoma, now)
        if row.rated and row.item.procedure in procedures | {"topics"}
    }
    return dict(sorted(found.items(), key=lambda pair: pair[1].item.position))


def own_codes(which, chart, now) -> list[str]:
    """The rated rows of the stoma and procedure chosen, and its essential topics."""
    return [
        row.code
        for row in applicable(chart, which.stoma.key, now)
        if row.rated and row.item.procedure in (which.procedure, "topics")
    ]
