"""A time as it is said on the ward: the unit's own clock, and which of two where the clock strikes twice.

    fields["at"] = WardTimeField(zone="America/New_York", label="When")     # cleans to an aware datetime

The night the clocks go forward skips an hour, the night they go back repeats one. A skipped time is refused;
for a repeated one the form asks which, by a choice that appears beside the time only then.
"""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from django import forms
from django.core.exceptions import ValidationError

FIRST, SECOND = "first", "second"
WHICH = {FIRST: "the first, before the clocks went back", SECOND: "the second, after the clocks went back"}
YEARS = range(1900, 2101)
SHAPE = "%Y-%m-%dT%H:%M"
MEND = "Write the day and the time, such as 2026-03-08 14:30."


def readings(here: datetime, zone: ZoneInfo) -> list[datetime]:
    """The moments (UTC, in order) at which the zone's clock shows this naive time: none, one or two."""
    tried = [here.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (0, 1)]
    return sorted({moment for moment in tried if moment.astimezone(zone).replace(tzinfo=None) == here})


def moment_of(here: datetime, zone: ZoneInfo, which: str = "") -> datetime:
    """The moment meant. Raises ValidationError where the clock skips it or strikes it twice."""
    found = readings(here, zone)
    said = f"{here:%H:%M} on {here.day} {here:%B %Y}"
    if not found:
        raise ValidationError(
            f"{said} does not exist here: the clocks went forward over it. Write what the ward clock showed.",
            code="skipped",
        )
    if len(found) == 2 and which not in WHICH:
        raise ValidationError(
            f"{said} happened twice: the clocks went back. Choose the first or the second.", code="twice"
        )
    return found[-1] if which == SECOND else found[0]


class WardTimeWidget(forms.MultiWidget):
    """A day and time; the choice of first or second stands beside it only where it is needed."""

    template_name = "teaching/access/ward_time.html"

    def __init__(self) -> None:
        day = forms.DateTimeInput(attrs={"type": "datetime-local"}, format=SHAPE)
        choices = [("", "First or second?"), *WHICH.items()]
        which = forms.Select(choices=choices, attrs={"aria-label": "The first or the second"})
        super().__init__([day, which])
        self.zone = ZoneInfo("UTC")
        self.asks = False

    def decompress(self, value: datetime | None) -> list:
        if value is None:
            return [None, ""]
        here = value.astimezone(self.zone)
        twice = len(readings(here.replace(tzinfo=None, fold=0), self.zone)) == 2
        self.asks = self.asks or twice
        return [here.replace(tzinfo=None), (SECOND if here.fold else FIRST) if twice else ""]

    def get_context(self, name: str, value: object, attrs: dict | None) -> dict:
        context = super().get_context(name, value, attrs)
        if not self.asks:
            context["widget"]["subwidgets"] = context["widget"]["subwidgets"][:1]
        return context


class WardTimeField(forms.MultiValueField):
    """Cleans to an aware UTC datetime, None when left empty and not required."""

    widget = WardTimeWidget

    def __init__(self, *, zone: str = "UTC", **kwargs: object) -> None:
        shapes = [SHAPE, "%Y-%m-%d %H:%M", "%Y-%m-%dT%H:%M:%S"]
        # Naive on purpose: the zone is the ward's, not the server's.
        fields = [_NaiveTime(input_formats=shapes), forms.CharField(required=False)]
        super().__init__(fields, require_all_fields=False, **kwargs)
        self.error_messages.setdefault("incomplete", MEND)
        self.on(zone)

    def on(self, zone: str) -> None:
        """Read and show the time by this zone's clock."""
        self.zone = self.widget.zone = ZoneInfo(zone)

    def compress(self, values: list) -> datetime | None:
        if not values or values[0] is None:
            return None
        which = values[1] if len(values) > 1 else ""
        self.widget.asks = which in WHICH
        try:
            return moment_of(values[0], self.zone, which)
        except ValidationError as trouble:
            self.widget.asks = trouble.code == "twice"
            raise


class DayField(forms.DateField):
    """A day without a time; a year that is surely a slip is asked for anew."""

    def __init__(self, **kwargs: object) -> None:
        super().__init__(**{"widget": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")} | kwargs)
        self.error_messages["invalid"] = "Write a day, such as 2026-03-08."

    def to_python(self, value: object) -> date | None:
        found = super().to_python(value)
        if found is not None and found.year not in YEARS:
            raise ValidationError(self.error_messages["invalid"], code="invalid")
        return found


class _NaiveTime(forms.Field):
    """A day and time without a zone."""

    def __init__(self, *, input_formats: list[str]) -> None:
        super().__init__(required=False)
        self.input_formats = input_formats

    def to_python(self, value: object) -> datetime | None:
        text = str(value or "").strip()
        if not text:
            return None
        for shape in self.input_formats:
            try:
                found = datetime.strptime(text, shape)
            except ValueError:
                continue
            if found.year in YEARS:
                return found
        raise ValidationError(MEND)
