"""Care given by a nurse, nothing to rate; and a leak. It gives a CareEntry in three taps."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.bedside.band import stoma_name
from teaching.bedside.which import emptied_by
from teaching.record.entries import CareEntry, FindingEntry
from teaching.rules import vocabulary as words

EMPTIED, SWAPPED, CHANGED, LEAKED = "emptied", "swapped", "changed", "leak"
WHAT = {
    LEAKED: "It leaked, and I changed the pouch",
    EMPTIED: "I emptied it",
    SWAPPED: "I swapped the closed pouch",
    CHANGED: "I changed the pouch, as planned",
}
DID = {"emptying": EMPTIED, "urine": EMPTIED, "swap": SWAPPED}
WHICH = "Tap the stoma, once they have said their name and birth date."


class CareForm(forms.Form):
    use_required_attribute = False  # what is missing is said in our own sentence
    which = forms.ChoiceField(
        label="Which stoma",
        widget=forms.RadioSelect,
        error_messages={"required": WHICH, "invalid_choice": WHICH},
    )
    what = forms.ChoiceField(
        label="What you did",
        widget=forms.RadioSelect,
        error_messages={"required": "Tap what you did.", "invalid_choice": "Tap one of these."},
    )
    leak_track = forms.ChoiceField(
        label="Where it had tracked",
        required=False,
        widget=forms.RadioSelect,
        choices=[("", "Not seen"), *words.SKIN_REGIONS.items()],
        help_text="Only for a leak. Left is the person's own left.",
    )
    at = WardTimeField(required=False, label="It happened earlier", help_text="Left empty, it happened just now.")

    def __init__(self, *args, stay, chart, now, **kwargs):
        super().__init__(*args, **kwargs)
        self.stay, self.chart, self.now = stay, chart, now
        self.fields["which"].choices = [(stoma.key, stoma_name(stoma)) for stoma in chart.stomas]
        self.fields["what"].choices = [(code, WHAT[code]) for code in self._possible()]
        self.fields["at"].on(chart.ward.zone)

    def _possible(self) -> list[str]:
        """What any of the stomas allows: a closed pouch is swapped, the others are emptied."""
        found = {LEAKED, CHANGED} | {self._did(stoma) for stoma in self.chart.stomas}
        return [code for code in WHAT if code in found]

    def _did(self, stoma) -> str:
        """Emptied or swapped, as this stoma's pouch is; "" where none is written down."""
        return DID.get(emptied_by(self.chart, stoma, self.now), "")

    def clean(self):
        cleaned = super().clean()
        what, which = cleaned.get("what"), cleaned.get("which")
        if what not in (LEAKED, None) and cleaned.get("leak_track"):
            self.add_error("leak_track", "This goes with a leak. Tap the leak above, or leave this out.")
        if what in (EMPTIED, SWAPPED) and which and what != self._did(self.chart.stoma(which)):
            self.add_error("what", "This stoma's pouch is not one of that kind. Tap what you did to it.")
        return cleaned

    def entry(self, client_skew_s=None) -> CareEntry:
        cleaned = self.cleaned_data
        stoma, what = self.chart.stoma(cleaned["which"]), cleaned["what"]
        changed = what in (LEAKED, CHANGED)
        return CareEntry(
            stay=self.stay,
            stoma=next(one for one in self.stay.stomas.all() if str(one.uid) == stoma.key),
            procedure="change" if changed else emptied_by(self.chart, stoma, self.now),
            at=cleaned["at"] or self.now,
            finding=self._finding(what),
            client_skew_s=client_skew_s,
        )

    def _finding(self, what: str) -> FindingEntry | None:
        if what == LEAKED:
            return FindingEntry(wear_end="leak", leak_track=self.cleaned_data["leak_track"])
        return FindingEntry(wear_end="planned") if what == CHANGED else None
