"""Forms that open a stay and write down stoma, kit and helpers. Each gives a frozen entry."""

from datetime import datetime, time
from zoneinfo import ZoneInfo

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Field, Fieldset, Layout
from django import forms
from django.utils import timezone

from teaching.access.ward_time import WardTimeField, moment_of
from teaching.record.entries import KitEntry, LearnerEntry, StayEntry, StomaEntry
from teaching.rules import vocabulary as words
from teaching.rules.spoken import LANGUAGES

CLOSED = "none"
DAY = "Write the day as year, month, day, such as 1958-04-23."
INTERVALS = {
    "": "Nobody has said yet",
    "24": "every day",
    "48": "every 2 days",
    "72": "every 3 days",
    "84": "twice a week",
    "96": "every 4 days",
    "120": "every 5 days",
    "144": "every 6 days",
    "168": "once a week",
}


def day_field(label: str, missing: str = "", **kwargs) -> forms.DateField:
    return forms.DateField(
        label=label,
        input_formats=["%Y-%m-%d"],
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={"required": missing, "invalid": DAY},
        **kwargs,
    )


def text(label: str, longest: int, missing: str = "", **kwargs) -> forms.CharField:
    return forms.CharField(
        label=label,
        max_length=longest,
        error_messages={"required": missing},
        required=bool(missing),
        **kwargs,
    )


def one_of(label: str, codes: dict[str, str], missing: str, **kwargs) -> forms.ChoiceField:
    said = {"required": missing, "invalid_choice": "This is not one of the choices. Choose again."}
    widget = kwargs.pop("widget", forms.RadioSelect)
    return forms.ChoiceField(
        label=label, choices=list(codes.items()), widget=widget, error_messages=said, **kwargs
    )


def millimetres(label: str, **kwargs) -> forms.DecimalField:
    return forms.DecimalField(
        label=label,
        required=False,
        max_digits=4,
        decimal_places=1,
        widget=forms.NumberInput(attrs={"step": "0.5", "inputmode": "decimal"}),
        error_messages={
            "invalid": "Write a number of millimetres, such as 32.",
            "max_digits": "This is too long for millimetres; measure again.",
            "max_decimal_places": "One digit after the point is enough, such as 32.5.",
            "max_whole_digits": "This is too long for millimetres; measure again.",
        },
        **kwargs,
    )


def laid_out(*parts: tuple[str, tuple[str | Field, ...]]) -> FormHelper:
    """The fields under headings; the page itself holds the form tag and the key."""
    helper = FormHelper()
    helper.form_tag, helper.disable_csrf = False, True
    under = {"template": "teaching/setup/part.html"}
    helper.layout = Layout(*(Fieldset(title, *fields, **under) for title, fields in parts))
    return helper


def side_by_side(*names: str) -> tuple[Field, ...]:
    """Short answers, several on a line."""
    return tuple(Field(name, template="teaching/setup/short_answers.html") for name in names)


class OfWard(forms.Form):
    """A form whose times go by the ward's clock."""

    def __init__(self, *args, zone: str, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.zone = zone
        for field in self.fields.values():
            if isinstance(field, WardTimeField):
                field.on(zone)


class LanguageForm(forms.Form):
    language = one_of("Language to teach in", LANGUAGES, "Choose the language.", widget=forms.Select)


class StayForm(OfWard):
    stands_for = {"planned_at": "planned_day"}
    helper = laid_out(
        ("Who", ("family_name", "given_names", "born", "mrn", "authority", "language")),
        ("This admission", ("bed", "visit_number", "expected", "opened_at")),
        ("Surgery and home", ("surgery_at", "taught_before", "planned_day")),
    )

    family_name = text("Family name", 80, "Write the family name, as on the wristband.")
    given_names = text("Given names", 80, "Write the given names, as on the wristband.")
    born = day_field("Date of birth", "Write the date of birth, as on the wristband.")
    mrn = text("The person's number", 40, "Write the number, as on the wristband.")
    authority = text(
        "Who gave the number",
        60,
        "Write the name of the hospital that gave the number.",
        help_text="The hospital or service that the number belongs to.",
    )
    visit_number = text("Number of this visit", 40)
    bed = text("Bed", 20)
    language = one_of(
        "Language to teach in", LANGUAGES, "Choose the language.", widget=forms.Select, initial="en"
    )
    expected = forms.BooleanField(label="Listed for surgery, not admitted yet", required=False)
    opened_at = WardTimeField(label="Came to the unit", required=False, help_text="Left empty: now.")
    surgery_at = WardTimeField(label="Surgery", required=False, help_text="Done or planned.")
    taught_before = forms.BooleanField(
        label="Already taught about this stoma, elsewhere or before", required=False
    )
    planned_day = day_field(
        "Planned day home",
        required=False,
        help_text="At the unit's usual hour of leaving. It can be changed.",
    )

    def __init__(self, *args, unit, leave_hour: int, **kwargs) -> None:
        super().__init__(*args, zone=unit.zone, **kwargs)
        self.unit, self.leave_hour = unit, leave_hour

    def clean(self) -> dict:
        said = super().clean()
        day = said.pop("planned_day", None)
        leaving = day and datetime.combine(day, time(self.leave_hour))
        said["planned_at"] = leaving and moment_of(leaving, ZoneInfo(self.zone), "first")
        return said

    def entry(self) -> StayEntry:
        return StayEntry(unit=self.unit, **self.cleaned_data)


class StomaForm(OfWard):
    helper = laid_out(
        ("What it is", (*side_by_side("kind", "construction", "side"), "label")),
        ("Since", ("formed_at",)),
    )

    kind = one_of("Kind", words.STOMA_KINDS, "Choose the kind of stoma.")
    construction = one_of("Built as", words.CONSTRUCTIONS, "Choose how it is built.")
    side = one_of("Side", words.SIDES, "Choose the side.", help_text="The person's own right or left.")
    label = text("Name, to tell two stomas apart", 40, help_text="Left empty: the side.")
    formed_at = WardTimeField(
        label="Formed", required=False, help_text="When the surgery was, once it has been."
    )

    def entry(self) -> StomaEntry:
        return StomaEntry(**self.cleaned_data)


class KitForm(OfWard):
    helper = laid_out(
        ("Flange", (*side_by_side("pieces", "shape", "opening"), "pre_cut_mm", "cut_limit_mm")),
        ("Pouch", side_by_side("closure", "outlet", "items")),
        ("When", ("interval_hours", "happened_at")),
    )

    pieces = one_of("Made of", words.PIECES, "Choose one-piece or two-piece.")
    shape = one_of("Flange", words.SHAPES, "Choose flat or convex.")
    opening = one_of("Opening", words.OPENINGS, "Choose how the opening is made.")
    pre_cut_mm = millimetres("Pre-cut opening, mm across", help_text="Only for a pre-cut flange.")
    cut_limit_mm = millimetres("Can be cut up to, mm", help_text="Printed on the flange. 8 to 150 mm.")
    closure = one_of("Kind of pouch", words.CLOSURES, "Choose drainable or closed.")
    outlet = one_of(
        "Outlet", {**words.OUTLETS, CLOSED: "none, it is closed"}, "Choose how the outlet shuts, or none."
    )
    items = forms.MultipleChoiceField(
        label="Also used",
        choices=list(words.KIT_ITEMS.items()),
        required=False,
        widget=forms.CheckboxSelectMultiple,
        error_messages={"invalid_choice": "This is not one of the choices. Choose again."},
    )
    interval_hours = one_of(
        "A change is planned",
        INTERVALS,
        "",
        widget=forms.Select,
        required=False,
        help_text="What was agreed for this person.",
    )
    happened_at = WardTimeField(label="Worn since", required=False, help_text="Left empty: now.")

    def entry(self) -> KitEntry:
        said = self.cleaned_data
        hours = int(said["interval_hours"]) if said["interval_hours"] else None
        outlet = "" if said["outlet"] == CLOSED else said["outlet"]
        return KitEntry(**said | {"items": tuple(said["items"]), "interval_hours": hours, "outlet": outlet})


class HelperForm(forms.Form):
    """Nobody is taught, and nothing of the person told, before both have said yes."""

    helper = laid_out(
        ("Who", ("name", "relation", "lives_in", "minutes_away")),
        ("Both must agree", ("person_said_yes", "helper_said_yes")),
    )
    stands_for = {"person_said_yes_at": "person_said_yes", "helper_said_yes_at": "helper_said_yes"}

    name = text("Name", 120, "Write the helper's name.")
    relation = text("Who they are to the person", 60, help_text="Such as daughter, husband, neighbour.")
    person_said_yes = forms.BooleanField(label="The person said yes to this helper, just now", required=False)
    helper_said_yes = forms.BooleanField(label="The helper said yes, just now", required=False)
    lives_in = forms.BooleanField(label="Lives with the person", required=False)
    minutes_away = forms.IntegerField(
        label="Else, minutes to get there",
        min_value=0,
        max_value=1440,
        required=False,
        error_messages={
            "invalid": "Write a whole number of minutes.",
            "min_value": "Write a whole number of minutes.",
            "max_value": "Write the minutes of one way, 1440 at most.",
        },
    )

    def entry(self) -> LearnerEntry:
        said, now = dict(self.cleaned_data), timezone.now()
        for whose in ("person", "helper"):
            said[f"{whose}_said_yes_at"] = now if said.pop(f"{whose}_said_yes") else None
        return LearnerEntry(**said)
