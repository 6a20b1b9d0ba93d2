"""One session that was begun and not signed: who has it, what was tapped, and whether it may be put away."""

from datetime import datetime

from django import forms
from django.urls import reverse

from teaching.bedside.begun import tapped_words
from teaching.bedside.note_page import NotePage
from teaching.bedside.recorder_form import RecorderForm
from teaching.bedside.recorders import recorder_of
from teaching.record.drafts_of import drafts_of, put_away_by, tapped_in
from teaching.rules.facts import Chart
from teaching.rules.huddle import when
from teaching.rules.policy import Policy
from teaching.rules.vocabulary import PROCEDURES

AWAY = (
    "It will no longer be shown among what is begun. What is signed stays, and what was tapped stays readable here."
)
PART = "Only what you tapped before it was taken over is put away. The session itself stays with whoever has it."
RUNS_ON = "A caution that was raised from it runs on. Settle it, or say that it was tapped by mistake, by itself."


def _why(why: str) -> str:
    return f": {why}" if why else "."


def _title(away: list[str]) -> str:
    return "Put away, never signed" if away else "Begun, not signed"


class PutAwayForm(forms.Form):
    why = forms.CharField(
        label="Why, if you want to say it", required=False, max_length=300, widget=forms.Textarea(attrs={"rows": 2}),
        error_messages={"max_length": "Shorten this to 300 characters."},
    )  # fmt: skip


class PutAwayPage(NotePage):
    """`tapped` are (nurse, sentence); without a `button` it is only read."""

    def __init__(self, draft, chart: Chart, policy: Policy, now: datetime, asker):
        stay, ward = draft.stay, chart.ward
        found = next((one for one in drafts_of(stay, asker.clinician_id) if one == draft), draft)
        self.own = draft.owner_id == asker.clinician_id
        self.part = not self.own and getattr(found, "left", False)
        may = self.part or (self.own and draft.state == "open")
        away = [f"Put away {when(at, ward, now)} by {who}{_why(why)}" for who, at, why in put_away_by(draft)]
        form = RecorderForm(
            recorder=recorder_of(draft.procedure), stay=stay, chart=chart, policy=policy, now=now, at=draft.begun_at
        )
        self.tapped = tapped_words(form, tapped_in(draft))
        super().__init__(
            stay, chart, now, asker, title="Put this draft away" if may else _title(away),
            asks=f"{PROCEDURES[draft.procedure]}, begun {when(draft.begun_at, ward, now)}",
            button=("Put my part away" if self.part else "Put it away") if may else "",
            says=(*away, *(self._says(draft, stay) if may else self._whose(draft, found, away))),
            links=self._links(draft, stay, may),
        )  # fmt: skip

    def _says(self, draft, stay):
        yield PART if self.part else AWAY
        if stay.cautions.filter(event_uid=draft.event_uid).exists():
            yield RUNS_ON

    def _whose(self, draft, found, away):
        if draft.state == "open" and not self.own:
            yield f"{found.owner_name} has this session. Take it over first, then you can put it away."
        elif draft.state == "signed" and not away:
            yield "It is signed. What was signed is corrected, or marked as entered in error, on its own page."

    def _links(self, draft, stay, may):
        person = (reverse("person", args=[stay.uid]), "Leave it as it is")
        if may:
            return (person,)
        if draft.state == "open" and not self.own:
            return ((reverse("take-over", args=[draft.uid]), "Take it over"),)
        return ()
