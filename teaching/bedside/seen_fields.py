"""What you saw: the fields of a finding, as they stand in the recorder and in care given.

A form adds `seen_fields(...)` to its own, reads them with `finding_in(cleaned)`, and in its `clean` asks about what is
unlikely with `bedside.asking`. The page includes `bedside/what_you_saw.html` and, above its form,
`bedside/asked.html`.
"""

from collections.abc import Mapping
from datetime import datetime
from decimal import Decimal, InvalidOperation
from typing import Any

from django import forms

from teaching.record.entries import FindingEntry
from teaching.rules import vocabulary as words
from teaching.rules.checklist import states_at
from teaching.rules.facts import Chart
from teaching.rules.fit import POWDER_FOR, early_look
from teaching.rules.policy import Policy
from teaching.rules.reasons import words as said_as

LOOKED = {
    "colour": ("Colour of the stoma", words.COLOURS),
    "wet": ("Its surface", words.WETNESS),
    "bleeding": ("Bleeding", words.BLEEDING),
    "edge": ("Its edge", words.EDGES),
    "stands": ("How it stands out", words.STANDS),
}
NOTICED = {"noticed_by": ("Where something is amiss: who noticed it first", words.NOTICED_BY)}
WORN = {
    "wear_end": ("How the last pouch ended", words.WEAR_ENDS),
    "leak_track": ("Where the leak had tracked", words.SKIN_REGIONS),
}
MEASURED = {
    "width_mm": "Stoma across, mm",
    "height_mm": "Stoma up and down, mm",
    "opening_width_mm": "Opening across, mm",
    "opening_height_mm": "Opening up and down, mm",
}
TUBES = {
    "rod": {"rod_length_mm": "Length of rod seen, mm"},
    "stents": {"stents": "Stents: how many you see", "stent_length_mm": "Length of stent seen, mm"},
}
HELP = {
    "width_mm": "At its base, where it meets the skin.",
    "opening_width_mm": "What was cut this time. Left empty for a moulded or pre-cut flange.",
    "leak_track": "Only for a leak. Left is the person's own left.",
    "powder_where": "Left is the person's own left.",
}
SAID = (*LOOKED, *NOTICED, *WORN)
NUMBERS = (*MEASURED, "rod_length_mm", "stents", "stent_length_mm")
NOT_LOOKED = ("", "Not looked at")
POWDER = {**words.SKIN_REGIONS, **POWDER_FOR}
WHOLE = ("change",)  # what is seen only with the flange off


def seen_fields(
    procedure: str = "change", *, chart: Chart | None = None, policy: Policy | None = None, now: datetime | None = None
) -> dict[str, forms.Field]:
    """{name: field}; a name such as finding.colour is the entry's own, so a refusal finds its field.

    A change asks for all of a finding, another procedure for what can be seen with the flange on. With a chart a rod
    or stents are asked about only where there are any, and early on a line reminds of the colour.
    """
    fields = _choices(LOOKED) | _skin() | _choices(NOTICED)
    if procedure in WHOLE:
        fields |= _numbers(MEASURED) | _choices(WORN) | _powder()
    for state, asked in TUBES.items():
        if chart is None or now is None or any(state in states_at(chart, one.key, now) for one in chart.stomas):
            fields |= _numbers(asked)
    if chart and policy and now and (early := early_look(chart, now, policy)):
        fields["finding.colour"].help_text = said_as(early)
    return fields


def _choices(asked: Mapping[str, tuple[str, Mapping[str, str]]]) -> dict[str, forms.Field]:
    return {
        f"finding.{name}": forms.ChoiceField(
            label=label, choices=list(known.items()), required=False, widget=forms.RadioSelect,
            help_text=HELP.get(name, ""),
        )
        for name, (label, known) in asked.items()
    }  # fmt: skip


def _skin() -> dict[str, forms.Field]:
    return {
        f"skin.{region}": forms.ChoiceField(
            label=skin_label(region), choices=[NOT_LOOKED, *words.SKIN.items()], required=False
        )
        for region in words.SKIN_REGIONS
    }


def skin_label(region: str) -> str:
    """Such as "Skin towards the feet", "Skin on the person's own left"."""
    where = words.SKIN_REGIONS[region]
    return f"Skin {where if where.startswith('towards') else f'on {where}'}"


def _numbers(asked: Mapping[str, str]) -> dict[str, forms.Field]:
    return {f"finding.{name}": _number(name, label) for name, label in asked.items()}


def _number(name: str, label: str) -> forms.Field:
    """How far a length may go is the record's to say; here only that it is a number."""
    if name == "stents":
        whole = {"invalid": "Write how many you see, such as 2."}
        return forms.IntegerField(label=label, required=False, error_messages=whole)
    sentence = "Write a number of millimetres, such as 32 or 32.5."
    errors = dict.fromkeys(("invalid", "max_digits", "max_decimal_places", "max_whole_digits"), sentence)
    return forms.DecimalField(
        label=label, required=False, max_digits=4, decimal_places=1, error_messages=errors,
        widget=forms.NumberInput(attrs={"step": "0.5", "inputmode": "decimal"}), help_text=HELP.get(name, ""),
    )  # fmt: skip


def _powder() -> dict[str, forms.Field]:
    return {
        "finding.powder_where": forms.MultipleChoiceField(
            label="Powder was put", choices=list(POWDER.items()), required=False,
            widget=forms.CheckboxSelectMultiple, help_text=HELP["powder_where"],
        )
    }  # fmt: skip


def finding_in(cleaned: Mapping[str, Any], **more: str) -> FindingEntry | None:
    """The finding as tapped; None where nothing was said. `cleaned` may hold a few fields only, as a tap does."""
    said: dict[str, Any] = {name: cleaned.get(f"finding.{name}") or "" for name in SAID}
    said |= {name: _amount(cleaned.get(f"finding.{name}")) for name in NUMBERS}
    where = cleaned.get("finding.powder_where") or ()
    said["powder_where"] = where if isinstance(where, str) else " ".join(where)
    skin = {region: seen for region in words.SKIN_REGIONS if (seen := cleaned.get(f"skin.{region}"))}
    said |= {name: value for name, value in more.items() if value}
    if not skin and not any(value not in ("", None) for value in said.values()):
        return None
    return FindingEntry(skin=skin, **said)


def said_of(finding: Any) -> dict[str, Any]:
    """{field: value} of a stored finding, to begin a correction from."""
    said = {f"finding.{name}": getattr(finding, name) for name in (*SAID, *NUMBERS)}
    said["finding.powder_where"] = finding.powder_where.split()
    return said | {f"skin.{region}": seen for region, seen in finding.skin.items()}


def _amount(value: Any) -> Any:
    """A number, or None: a tap brings text that no form has cleaned yet."""
    try:
        return None if value in (None, "") else value if isinstance(value, int | Decimal) else Decimal(str(value))
    except InvalidOperation:
        return None
