"""What has changed in the body and touches learning: a choice is a state that begins or ends, of one stoma or none."""

from datetime import datetime

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.rules.checklist import lasts
from teaching.rules.facts import Chart, Stoma
from teaching.rules.vocabulary import BODY_EVENTS

OF_THE_PERSON = ("delirium", "intensive-care", "sedation", "sight-loss", "hand-loss")
AT_ONCE = {"reoperation": "Operated on again", "re-sited": "Stoma moved to another place (re-sited)"}
OF_BOWEL = ("no-stool-yet",)
OF_URINE = ("stents",)
OF_ONE_STOMA = ("rod", "stents", "no-stool-yet", "measured")
BEGUN = {
    "no-stool-yet": "Real stool has not come yet (asked)", "rod": "A rod is in place", "stents": "Stents are in place",
    "measured": "Output is being measured", "sight-loss": "New loss of sight", "hand-loss": "New loss of hand use",
}  # fmt: skip
ENDED = {
    "no-stool-yet": "Real stool has come (asked)", "rod": "The rod is out", "stents": "The stents are out",
    "measured": "Output is no longer measured",
}  # fmt: skip


def changes_possible(chart: Chart, now: datetime) -> list[tuple[str, str]]:
    """[("rod.ended.<stoma>", words)]: first what may end, then what may begin; what cannot be is absent."""
    running = [event for event in chart.body_events if lasts(event, now) and event.code not in AT_ONCE]
    ends = [
        (f"{one.code}.ended.{one.stoma}", _of(chart, ENDED.get(one.code, f"{_said(one.code)}: over"), one.stoma))
        for one in running
    ]
    on = {(event.code, event.stoma) for event in running}
    begins = [(code, "") for code in OF_THE_PERSON]
    begins += [(code, stoma.key) for stoma in chart.stomas for code in OF_ONE_STOMA if _fits(code, stoma)]
    found = [
        (f"{code}.began.{stoma}", _of(chart, BEGUN.get(code, f"{_said(code)} began"), stoma))
        for code, stoma in begins
        if (code, stoma) not in on
    ]
    at_once = [
        (f"{code}.began.{stoma.key}", _of(chart, words, stoma.key))
        for code, words in AT_ONCE.items()
        for stoma in chart.stomas
    ]
    return ends + found + at_once


def _fits(code: str, stoma: Stoma) -> bool:
    urine = stoma.kind in ("urostomy", "wet-colostomy")
    return not (code in OF_URINE and not urine) and not (code in OF_BOWEL and stoma.kind == "urostomy")


def _said(code: str) -> str:
    words = BODY_EVENTS[code]
    return words[0].upper() + words[1:]


def _of(chart: Chart, words: str, stoma: str) -> str:
    return f"{words}, {chart.stoma(stoma).label} stoma" if stoma and len(chart.stomas) > 1 else words


class BodyEventForm(forms.Form):
    what = forms.ChoiceField(
        label="What has changed", widget=forms.RadioSelect,
        error_messages={"required": "Tap what has changed.", "invalid_choice": "Tap one of these."},
    )  # fmt: skip
    at = WardTimeField(required=False, label="It happened earlier", help_text="Left empty, it happened just now.")

    stands_for = {"code": "what", "change": "what", "stoma": "what"}

    def __init__(self, *args, chart: Chart, now: datetime, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["what"].choices = changes_possible(chart, now)
        self.fields["at"].on(chart.ward.zone)

    def meant(self) -> tuple[str, str, str]:
        """(code, change, stoma's key or "")."""
        code, change, stoma = self.cleaned_data["what"].split(".", maxsplit=2)
        return code, change, stoma

    @property
    def said(self) -> str:
        return dict(self.fields["what"].choices)[self.cleaned_data["what"]]
