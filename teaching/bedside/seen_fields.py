"""What you saw: the fields of a finding, as they stand in the recorder and in care given."""

from django import forms

from teaching.record.entries import FindingEntry
from teaching.rules import vocabulary as words

ASKED = {
    "colour": ("Colour of the stoma", words.COLOURS),
    "wet": ("Its surface", words.WETNESS),
    "bleeding": ("Bleeding", words.BLEEDING),
    "edge": ("Its edge", words.EDGES),
    "stands": ("How it stands out", words.STANDS),
}
NOT_LOOKED = ("", "Not looked at")


def seen_fields() -> dict[str, forms.Field]:
    """{name: field}; a name such as finding.colour is the entry's own, so a refusal finds its field."""
    fields: dict[str, forms.Field] = {}
    for name, (label, known) in ASKED.items():
        fields[f"finding.{name}"] = forms.ChoiceField(
            label=label, choices=list(known.items()), required=False, widget=forms.RadioSelect
        )
    for region, label in words.SKIN_REGIONS.items():
        fields[f"skin.{region}"] = forms.ChoiceField(
            label=f"Skin {label}", choices=[NOT_LOOKED, *words.SKIN.items()], required=False
        )
    fields["finding.noticed_by"] = forms.ChoiceField(
        label="Who noticed it first",
        choices=list(words.NOTICED_BY.items()),
        required=False,
        widget=forms.RadioSelect,
    )
    return fields


def finding_in(cleaned: dict, **more: str) -> FindingEntry | None:
    """The finding as tapped; None where nothing was said."""
    said = {name: cleaned.get(f"finding.{name}", "") for name in (*ASKED, "noticed_by")}
    skin = {region: seen for region in words.SKIN_REGIONS if (seen := cleaned.get(f"skin.{region}"))}
    said |= {name: value for name, value in more.items() if value}
    if not skin and not any(said.values()):
        return None
    return FindingEntry(skin=skin, **said)
