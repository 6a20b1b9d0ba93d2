"""What was told and what was said back in own words: one answer a topic, none offered beforehand."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.bedside.band import stoma_name
from teaching.bedside.which import learner_name
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.rules.assess import Assessment
from teaching.rules.checklist import applicable
from teaching.rules.facts import Chart, Item
from teaching.rules.reasons import words as said_in
from teaching.rules.scene import has_agreed
from teaching.rules.topics import needs_interpreter
from teaching.rules.vocabulary import ANSWERS, INTERPRETERS, TOPIC_CODES

TOPICS = "topics"


def topics_of(chart: Chart, now) -> dict[str, list[Item]]:
    """{stoma: its topics} in the order of the checklist."""
    return {
        stoma.key: [row.item for row in applicable(chart, stoma.key, now) if row.item.procedure == TOPICS]
        for stoma in chart.stomas
    }


def stands_at(chart: Chart, found: Assessment, person: str) -> dict[str, list[str]]:
    """{topic: where each learner stands in it}, for whoever has heard of it or still has to."""
    said: dict[str, list[str]] = {}
    for one in found.standings:
        if one.row.item.procedure == TOPICS and (one.last or one.row.essential):
            who = learner_name(chart.learner(one.learner), person)
            state = "explained" if one.held else said_in(one.reasons[0]) if one.reasons else one.state
            line = f"{who}: {state}"
            if line not in said.setdefault(one.row.item.code, []):
                said[one.row.item.code].append(line)
    return said


class TopicsForm(forms.Form):
    """`which` is who listened and, where there are two, for which stoma."""

    which = forms.ChoiceField(
        label="Who listened", widget=forms.RadioSelect,
        error_messages={"required": "Tap who listened, once they have said their name and birth date.",
                        "invalid_choice": "Tap one of these."},
    )  # fmt: skip
    interpreter = forms.ChoiceField(
        label="Who interpreted", required=False, widget=forms.RadioSelect,
        choices=[("", "Nobody was needed"), *INTERPRETERS.items()],
    )  # fmt: skip
    at = WardTimeField(required=False, label="It was earlier", help_text="Left empty, it was just now.")

    def __init__(self, *args, stay, chart: Chart, now, person: str, **kwargs):
        super().__init__(*args, **kwargs)
        self.stay, self.chart, self.now = stay, chart, now
        self.topics = topics_of(chart, now)
        people = sorted(chart.learners, key=lambda learner: (learner.kind != "person", learner.name))
        self.asks_interpreter = any(needs_interpreter(chart, learner) for learner in people)
        if self.asks_interpreter:
            self.fields["interpreter"].choices = [("", "Not said"), *INTERPRETERS.items()]
            self.fields["interpreter"].help_text = "Explained is only what a trained interpreter heard."
        several = len(chart.stomas) > 1
        self.fields["which"].choices = [
            (f"{stoma.key}:{one.key}", learner_name(one, person) + (f", {stoma_name(stoma)}" if several else ""))
            for stoma in chart.stomas
            for one in people
            if has_agreed(chart, one, now)
        ]
        self.items = list({item.code: item for items in self.topics.values() for item in items}.values())
        for item in self.items:
            self.fields[f"topic.{item.code}"] = forms.ChoiceField(
                label=item.title, required=False, widget=forms.RadioSelect,
                choices=[("", "Not talked about"), *((code, ANSWERS[code].words) for code in TOPIC_CODES)],
            )  # fmt: skip
        self.stands_for = {f"ratings.{item.code}": f"topic.{item.code}" for item in self.items}
        self.stands_for |= {"began_at": "at", "learner": "which", "stoma": "which"}
        self.fields["at"].on(chart.ward.zone)

    def clean(self):
        cleaned = super().clean()
        if not self.errors and not self._answers():
            self.add_error(None, "Nothing is answered yet. Tap what was told, or said back in own words.")
        return cleaned

    def _answers(self) -> dict[str, str]:
        told = {item.code: self.cleaned_data.get(f"topic.{item.code}", "") for item in self.items}
        return {code: answer for code, answer in told.items() if answer}

    def entry(self, role: str) -> SessionEntry:
        stoma, learner = self.cleaned_data["which"].split(":")
        listener = self.stay.learners.get(uid=learner)
        return SessionEntry(
            stay=self.stay,
            stoma=self.stay.stomas.get(uid=stoma),
            procedure=TOPICS,
            began_at=self.cleaned_data["at"] or self.now,
            ratings=tuple(
                RatingEntry(learner=listener, code=code, answer=answer) for code, answer in self._answers().items()
            ),
            interpreter=self.cleaned_data["interpreter"],
            role=role,
        )
