"""Teaching paused, gone on with, or stopped, and why. Paused and stopped: no prompts, no figures."""

from django import forms

from teaching.access.ward_time import WardTimeField

WHY = {
    "paused": ("Intensive care", "Too ill", "Their own wish", "Away for an operation or a test"),
    "stopped": ("Died", "Comfort care", "Stoma closed again (reversal)", "Their own choice"),
}
OTHER = "other"
DOES = {
    "paused": ("Pause teaching", "Teaching is paused"),
    "resumed": ("Go on with teaching", "Teaching goes on"),
    "stopped": ("Stop teaching on this stay", "Teaching is stopped"),
}
RUNNING = ("opened", "moved", "resumed", "reopened")


def steps_from(state: str) -> tuple[str, ...]:
    """Which of these may follow the state the stay is in."""
    if state == "paused":
        return ("resumed", "stopped")
    return ("paused", "stopped") if state in RUNNING else ()


class StateForm(forms.Form):
    """`kind` is what becomes of the stay; the reasons offered are those of its kind."""

    why_choice = forms.ChoiceField(
        label="Why", widget=forms.RadioSelect,
        error_messages={"required": "Tap why.", "invalid_choice": "Tap one of these."},
    )  # fmt: skip
    why = forms.CharField(
        label="In words", max_length=200, required=False,
        error_messages={"max_length": "Shorten this to 200 characters."},
    )  # fmt: skip
    at = WardTimeField(required=False, label="It was earlier", help_text="Left empty, it is now.")

    def __init__(self, *args, kind: str, zone: str, **kwargs):
        super().__init__(*args, **kwargs)
        self.kind = kind
        if kind in WHY:
            self.fields["why_choice"].choices = [*((said, said) for said in WHY[kind]), (OTHER, "Something else")]
        else:
            del self.fields["why_choice"]
        self.fields["at"].on(zone)

    def clean(self):
        cleaned = super().clean()
        if cleaned.get("why_choice") == OTHER and not cleaned.get("why", "").strip():
            self.add_error("why", "Write in a few words why.")
        return cleaned

    @property
    def reason(self) -> str:
        chosen = self.cleaned_data.get("why_choice", "")
        parts = ["" if chosen == OTHER else chosen, self.cleaned_data.get("why", "").strip()]
        return ": ".join(part for part in parts if part)[:200]
