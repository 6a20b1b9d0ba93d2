"""How one unit works: its shifts and its usual hour of leaving. The zone was set when the unit was opened."""

from django import forms
from django.urls import reverse

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.record.places import change_unit, settings_of

MOST_SHIFTS = 4
PARTS = ("name", "starts", "ends")
LABELS = {"name": "Name", "starts": "Starts", "ends": "Ends"}
CLOCK = "Write a time such as 07:30."


class UnitSettingsForm(forms.Form):
    """`shifts` as rows of name, start and end; a row left empty is no shift."""

    stands_for = {"shifts": "shift_1_name"}
    leave_hour = forms.IntegerField(
        label="Usual hour of leaving",
        min_value=0,
        max_value=23,
        help_text="The whole hour at which most people leave, 0 to 23 on the ward clock.",
        error_messages={
            "required": "Write the hour, such as 12.",
            "invalid": "Write a whole hour from 0 to 23.",
            "min_value": "Write a whole hour from 0 to 23.",
            "max_value": "Write a whole hour from 0 to 23.",
        },
    )

    def __init__(self, *args, settings, **kwargs) -> None:
        super().__init__(*args, initial={"leave_hour": settings.leave_hour}, **kwargs)
        for row in range(1, MOST_SHIFTS + 1):
            shift = settings.shifts[row - 1] if row <= len(settings.shifts) else {}
            for part in PARTS:
                self.fields[f"shift_{row}_{part}"] = self._field(part, shift.get(part, ""))
        self.order_fields([name for name in self.fields if name != "leave_hour"])

    @staticmethod
    def _field(part: str, initial: str) -> forms.Field:
        shared = {"label": LABELS[part], "required": False, "initial": initial}
        if part == "name":
            return forms.CharField(max_length=40, **shared)
        clock = forms.TimeInput(attrs={"type": "time"}, format="%H:%M")
        return forms.TimeField(
            input_formats=["%H:%M", "%H:%M:%S"], widget=clock, error_messages={"invalid": CLOCK}, **shared
        )

    def rows(self):
        """The fields of each shift, for the page."""
        return [[self[f"shift_{row}_{part}"] for part in PARTS] for row in range(1, MOST_SHIFTS + 1)]

    def clean(self) -> dict:
        said = super().clean()
        said["shifts"] = []
        for row in range(1, MOST_SHIFTS + 1):
            names = [f"shift_{row}_{part}" for part in PARTS]
            values = [said.get(name) for name in names]
            if all(values):
                name, starts, ends = values
                shift = {"name": name.strip(), "starts": f"{starts:%H:%M}", "ends": f"{ends:%H:%M}"}
                said["shifts"].append(shift)
            elif any(values):
                self._ask_for_the_rest(dict(zip(names, values, strict=True)))
        return said

    def _ask_for_the_rest(self, row: dict) -> None:
        for field, value in row.items():
            if not value and field not in self.errors:
                self.add_error(
                    field, "A shift needs a name, a start and an end. Fill this in or empty the row."
                )


@guard("manage_unit")
def unit_settings(request, unit):
    def store(form):
        said = form.cleaned_data
        change_unit(actor=request.actor, unit=unit, shifts=said["shifts"], leave_hour=said["leave_hour"])
        return reverse("unit-settings", kwargs={"unit": unit.uid})

    form = UnitSettingsForm(request.POST or None, settings=settings_of(unit))
    page = {"unit": unit, "title": f"How {unit.name} works", "button": "Store how the unit works"}
    return answer_form(
        request, form, "teaching/setup/unit_settings.html", store, page | {"back": reverse("setup")}
    )
