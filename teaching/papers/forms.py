"""What papers ask: which words were read, which print, what goes along with who leaves early, about which time."""

from datetime import date, datetime, timedelta

from django import forms

from teaching.access.ward_time import DayField, WardTimeField
from teaching.papers.take_home import SIZES
from teaching.record.checking import NO_NUMBER
from teaching.rules.call_home import promised_by
from teaching.rules.cover import HOUR
from teaching.rules.fit import kit_against_plan
from teaching.rules.policy import Policy
from teaching.rules.vocabulary import can_be_rung

SHOWN_FOR = timedelta(minutes=30)  # common practice, no source: an idle session ends then too
AGAIN = "This page is too old to sign. Read what stands below, then sign."
PRINTS = {14: "14 point, clear print", 18: "18 point, large print"}
CHOOSE = "Tap the print that this person can read."
WHOLE = "Write a whole number of days, 0 or more."
MOST_DAYS = 60


class SignReadinessForm(forms.Form):
    """`shown` is the digest of the words on the page, `judged_at` the moment (UTC) they were judged for."""

    shown = forms.CharField(max_length=64, widget=forms.HiddenInput, error_messages={"required": AGAIN})
    judged_at = forms.CharField(max_length=40, widget=forms.HiddenInput, error_messages={"required": AGAIN})

    def __init__(self, *args, now: datetime, **kwargs):
        super().__init__(*args, **kwargs)
        self.now = now

    def clean_judged_at(self) -> datetime:
        try:
            judged = datetime.fromisoformat(self.cleaned_data["judged_at"])
            recent = timedelta() <= self.now - judged <= SHOWN_FOR
        except (TypeError, ValueError):
            recent = False
        if not recent:
            raise forms.ValidationError(AGAIN)
        return judged


class TakeHomeForm(forms.Form):
    size = forms.TypedChoiceField(
        label="Print", choices=[(size, PRINTS[size]) for size in SIZES], coerce=int, widget=forms.RadioSelect,
        error_messages={"required": CHOOSE, "invalid_choice": CHOOSE},
    )  # fmt: skip


class AgainstPlanForm(SignReadinessForm):
    """`now` is when the person leaves; `number` what stands arranged, to be corrected; `policy` the unit's."""

    told = forms.CharField(
        label="Who was told, by name and role", max_length=120,
        error_messages={"required": "Write who was told: a doctor of the team, by name."},
    )  # fmt: skip
    kit_days = forms.IntegerField(
        label="Kit given for how many days", min_value=0, max_value=MOST_DAYS,
        error_messages={
            "required": WHOLE, "invalid": WHOLE, "min_value": WHOLE, "max_value": f"{MOST_DAYS} is the most here.",
        },
    )  # fmt: skip
    number = forms.CharField(
        label="Number to ring, day and night", max_length=40,
        error_messages={"required": "Write a number that is answered day and night."},
    )  # fmt: skip
    call_by = forms.CharField(
        label="Who rings the person", max_length=120,
        error_messages={"required": "Write who rings, by name or service."},
    )  # fmt: skip

    def __init__(self, *args, now: datetime, zone: str, number: str, policy: Policy, **kwargs):
        super().__init__(*args, now=now, initial={"number": number}, **kwargs)
        self.latest = promised_by(now, policy)
        self.hours = hours = (self.latest - now) // HOUR
        self.fields["kit_days"].help_text = f"{kit_against_plan(policy)} days, or what there is."
        self.fields["told_at"] = WardTimeField(
            zone=zone, label="When they were told", error_messages={"required": "Write when they were told."}
        )
        self.fields["call_at"] = WardTimeField(
            zone=zone, label=f"When they ring, within {hours} hours",
            error_messages={"required": f"Write when they ring; within {hours} hours from now."},
        )  # fmt: skip
        self.order_fields(["told", "told_at", "kit_days", "number", "call_by", "call_at"])

    def clean_told_at(self):
        told_at = self.cleaned_data["told_at"]
        if told_at and told_at > self.now:
            raise forms.ValidationError("This is still to come. Tell them first, then write when it was.")
        return told_at

    def clean_number(self):
        number = self.cleaned_data["number"]
        if not can_be_rung(number):
            raise forms.ValidationError(NO_NUMBER)
        return number

    def clean_call_at(self):
        call_at = self.cleaned_data["call_at"]
        if call_at and not self.now < call_at <= self.latest:
            raise forms.ValidationError(f"The call is to be within {self.hours} hours from now; "
                                        "give an earlier time."
                                        if call_at > self.now else "This moment is already past; give a coming one.")
        return call_at

    def said(self) -> dict:
        """What `against_plan` takes."""
        names = ("told", "told_at", "kit_days", "number", "call_by", "call_at")
        return {name: self.cleaned_data[name] for name in names}


class KeepEvidenceForm(forms.Form):
    """Both days whole and within; `today` is the ward's own."""

    first = DayField(label="From", error_messages={"required": "Write the first day."})
    last = DayField(
        label="Until", help_text="This day still counts.", error_messages={"required": "Write the last day."}
    )

    def __init__(self, *args, today: date, **kwargs):
        super().__init__(*args, **kwargs)
        self.today = today

    def clean_last(self) -> date:
        last = self.cleaned_data["last"]
        if last > self.today:
            raise forms.ValidationError("This day is still to come. Write today or an earlier day.")
        return last

    def clean(self) -> dict:
        days = self.cleaned_data
        if "first" in days and "last" in days and days["last"] < days["first"]:
            self.add_error("last", "This day is before the first one. Change one of the two.")
        return days
