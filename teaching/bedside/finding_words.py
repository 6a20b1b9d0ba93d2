"""A stored finding in words, by the same labels as it was asked for."""

from decimal import Decimal

from teaching.bedside.seen_fields import LOOKED, MEASURED, NOTICED, POWDER, TUBES, WORN, skin_label
from teaching.rules.vocabulary import SKIN, SKIN_REGIONS

LENGTHS = MEASURED | {name: label for asked in TUBES.values() for name, label in asked.items()}


def plain(value: Decimal | int) -> str:
    """Such as "30" or "30.5": no more places than were written."""
    return f"{Decimal(value).normalize():f}"


def finding_words(finding) -> tuple[str, ...]:
    """Such as "Colour of the stoma: pink or red"; only what was said."""
    said = [
        f"{label}: {known[value]}"
        for name, (label, known) in (LOOKED | NOTICED | WORN).items()
        if (value := getattr(finding, name))
    ]
    said += [
        f"{label}: {plain(value)}" for name, label in LENGTHS.items() if (value := getattr(finding, name)) is not None
    ]
    skin = finding.skin
    said += [f"{skin_label(code)}: {SKIN[skin[code]]}" for code in SKIN_REGIONS if skin.get(code)]
    if finding.powder_where:
        said.append(f"Powder: {', '.join(POWDER.get(one, one) for one in finding.powder_where.split())}")
    return tuple(said)
