"""Forms of what becomes of a stay, and of the planned day home."""

from datetime import datetime, time
from zoneinfo import ZoneInfo

from django import forms

from teaching.access.ward_time import WardTimeField, moment_of
from teaching.rules.vocabulary import GOES_TO
from teaching.setup.stay_forms import day_field, one_of, text

# kind: (what the link and the title say, what the button says, what it means)
ACTS = {
    "opened": ("They have come in", "Note that they have come in", "From now on they are on this unit's list."),
    "moved": ("Moved to another bed or unit", "Note the move", "What is on record goes with them."),
    "paused": ("Pause teaching", "Pause teaching", "Nothing is asked for while it lasts. Care and cautions go on."),
    "resumed": ("Go on with teaching", "Go on with teaching", "What is due is asked for again."),
    "left": ("They have left", "Note that they have left", "What is on record stays readable. It can be reopened."),
    "stopped": ("Stop teaching for good", "Stop teaching", "For somebody who died, comfort care, or a closed stoma."),
    "cancelled": ("Opened by mistake, or surgery called off", "Cancel this stay", "It leaves every list."),
    "reopened": ("Reopen this stay", "Reopen this stay", "What ended it is taken back, as if it had never been."),
}
WITH_A_PLACE = {"moved", "opened", "reopened"}
WHY_NEEDED = {"paused", "stopped", "cancelled", "reopened"}


class StayEventForm(forms.Form):
    """Only what belongs to its kind: a place for a move, where to for a leaving, why where it must be said.

    `begun`: whether sessions are begun and not signed, which somebody who leaves is asked about.
    """

    def __init__(self, *args, kind: str, units, now, zone: str, begun: bool = False, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.units = {str(unit.uid): unit for unit in units}
        if kind in WITH_A_PLACE:
            places = {uid: unit.name for uid, unit in self.units.items()}
            here = str(now.unit.uid)
            self.fields["unit"] = one_of("Unit", places, "Choose the unit.", initial=here, widget=forms.Select)
            self.fields["bed"] = text("Bed", 20, initial=now.bed)
        if kind == "left":
            self.fields["left_to"] = text("Where to", 80, help_text="Such as home, or the name of a care facility.")
        self.fields["why"] = text("Why", 200, "Write in a few words why." if kind in WHY_NEEDED else "")
        self.fields["at"] = WardTimeField(label="When", required=False, help_text="Left empty: now.", zone=zone)
        if kind == "left" and begun:
            self.fields["leaves_drafts"] = forms.BooleanField(label="What was begun may stay unsigned", required=False)

    def said(self) -> dict:
        """What the verb is told beside the kind."""
        return {
            name: self.units[value] if name == "unit" else value for name, value in self.cleaned_data.items()
        }


class PlannedHomeForm(forms.Form):
    """A day, at the unit's usual hour unless another is said; left empty the plan is taken back."""

    stands_for = {"at": "day"}
    day = day_field("Planned day", required=False, help_text="Left empty, no day is planned any more.")
    hour = forms.IntegerField(
        label="Hour", min_value=0, max_value=23, required=False,
        error_messages=dict.fromkeys(("invalid", "min_value", "max_value"), "Write a whole hour from 0 to 23."),
    )  # fmt: skip
    goes_to = one_of("Where to", GOES_TO, "Choose home or a care facility.")
    why = text("Why it changes", 200)

    def __init__(self, *args, zone: str, leave_hour: int, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.zone, self.leave_hour = zone, leave_hour
        self.fields["hour"].help_text = f"Left empty: {leave_hour}:00, the unit's usual hour."

    def clean(self) -> dict:
        said = super().clean()
        day, hour = said.get("day"), said.get("hour")
        leaving = day and datetime.combine(day, time(self.leave_hour if hour is None else hour))
        said["at"] = leaving and moment_of(leaving, ZoneInfo(self.zone), "first")
        return said
