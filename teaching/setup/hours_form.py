"""When a helper is there: a week to tap in quarters of a day, exact hours where those do not do, and exceptions."""

import re
from datetime import datetime

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.setup.stay_forms import HelperForm

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
PARTS = {"night": (0, 6), "morning": (6, 12), "afternoon": (12, 18), "evening": (18, 24)}
SPAN = re.compile(r"(\d{1,2})(?::00)?\s*(?:-|to)\s*(\d{1,2})(?::00)?")
EXACT = "Write whole hours such as 7-9, 17-23, or the word none."
NONE = "none"
MORE = 2
FILLED = {
    "always": "There at all hours",
    "outside-work": "Evenings, nights and weekends",
    "nights": "Evenings and nights",
    "weekends": "Weekends",
    "never": "Clear the week",
}


def filled(name: str) -> str:
    """A week to begin with, as 168 characters 0 or 1 from Monday 00:00."""
    off_work = "1" * 6 + "0" * 12 + "1" * 6
    return {
        "always": "1" * 168,
        "outside-work": off_work * 5 + "1" * 48,
        "nights": off_work * 7,
        "weekends": "0" * 120 + "1" * 48,
        "never": "0" * 168,
    }[name]


def parts_of(week: str) -> list[str]:
    """"0-morning" and so on: each quarter of a day that is there whole."""
    return [
        f"{day}-{name}"
        for day in range(7)
        for name, (start, end) in PARTS.items()
        if week and set(week[day * 24 + start : day * 24 + end]) == {"1"}
    ]


def exact_of(week: str, day: int) -> str:
    """The day's hours in words, where quarters do not say them; "" where they do."""
    hours = week[day * 24 : day * 24 + 24]
    if not hours or all(len(set(hours[start:end])) == 1 for start, end in PARTS.values()):
        return ""
    return ", ".join(f"{found.start()}-{found.end()}" for found in re.finditer("1+", hours))


def hours_in(words: str) -> str:
    """24 characters from "7-9, 17-23" or "none". Raises ValidationError."""
    hours = ["0"] * 24
    if words.strip().lower() == NONE:
        return "".join(hours)
    for piece in words.split(","):
        found = SPAN.fullmatch(piece.strip())
        start, end = (int(found[1]), int(found[2])) if found else (1, 0)
        if not start < end <= 24:
            raise forms.ValidationError(EXACT)
        hours[start:end] = "1" * (end - start)
    return "".join(hours)


class HoursForm(forms.Form):
    """Cleans to `week` and `exceptions` as the verb takes them. A day said exactly goes before its quarters."""

    stands_for = {"week": "parts", "exceptions": "exception_1_from"}
    parts = forms.MultipleChoiceField(
        label="The week", required=False, widget=forms.CheckboxSelectMultiple,
        choices=[(f"{day}-{name}", f"{DAYS[day]} {name}") for day in range(7) for name in PARTS],
    )  # fmt: skip
    lives_in = HelperForm.base_fields["lives_in"]
    minutes_away = HelperForm.base_fields["minutes_away"]

    def __init__(self, *args, zone: str, week: str, exceptions=(), **kwargs) -> None:
        kwargs["initial"] = {"parts": parts_of(week)} | kwargs.get("initial", {})
        super().__init__(*args, **kwargs)
        for day, name in enumerate(DAYS):
            self.fields[f"exact_{day}"] = forms.CharField(
                label=name, max_length=80, required=False, initial=exact_of(week, day)
            )
        self.count = len(exceptions) + MORE
        for number in range(1, self.count + 1):
            known = exceptions[number - 1] if number <= len(exceptions) else (None, None, None)
            self._exception(f"exception_{number}", known, zone)

    def _exception(self, name: str, known: tuple[datetime | None, datetime | None, bool | None], zone: str) -> None:
        start, end, there = known
        self.fields[f"{name}_from"] = WardTimeField(label="From", required=False, zone=zone, initial=start)
        self.fields[f"{name}_to"] = WardTimeField(label="To", required=False, zone=zone, initial=end)
        self.fields[f"{name}_there"] = forms.ChoiceField(
            label="Then", required=False, choices=[("", "Choose"), ("no", "not there"), ("yes", "there")],
            initial={None: "", True: "yes", False: "no"}[there],
        )  # fmt: skip

    def grid(self):
        """A row for each day: its name, and its four choices."""
        boxes = list(self["parts"])
        return [(DAYS[day], boxes[day * 4 : day * 4 + 4]) for day in range(7)]

    @property
    def quarters(self) -> list[tuple[str, str]]:
        return [(name.capitalize(), f"{start}-{end}") for name, (start, end) in PARTS.items()]

    def exact(self):
        return [self[f"exact_{day}"] for day in range(7)]

    @property
    def exact_said(self) -> bool:
        return any(field.value() for field in self.exact())

    def rows(self):
        return [
            [self[f"exception_{number}_{part}"] for part in ("from", "to", "there")]
            for number in range(1, self.count + 1)
        ]

    def clean(self) -> dict:
        said = super().clean()
        said["week"] = "".join(self._day(said, day) for day in range(7))
        said["exceptions"] = []
        for number in range(1, self.count + 1):
            names = [f"exception_{number}_{part}" for part in ("from", "to", "there")]
            values = [said.get(name) for name in names]
            if all(values):
                said["exceptions"].append({"from": values[0], "to": values[1], "there": values[2] == "yes"})
            elif any(values):
                for name, value in zip(names, values, strict=True):
                    if not value and name not in self.errors:
                        self.add_error(name, "An exception needs from, to, and whether they are there.")
        return said

    def _day(self, said: dict, day: int) -> str:
        try:
            if words := said.get(f"exact_{day}", ""):
                return hours_in(words)
        except forms.ValidationError as trouble:
            self.add_error(f"exact_{day}", trouble)
        tapped = said.get("parts", ())
        return "".join(
            ("1" if f"{day}-{name}" in tapped else "0") * (end - start) for name, (start, end) in PARTS.items()
        )
