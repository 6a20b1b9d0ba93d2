"""One's own page: how sure one feels, and asking to be observed, at a due change where one may see the shift."""

from collections.abc import Iterable
from datetime import datetime

from django import forms

from teaching.rules.board import BoardRow
from teaching.rules.huddle import when
from teaching.rules.huddle_cover import DueChange, skill_to_teach
from teaching.rules.ward import Ward

ANY_TIME = "any"
SURE = {"1": "not at all sure", "6": "quite sure"}


class ConfidenceForm(forms.Form):
    confidence = forms.TypedChoiceField(
        label="How sure you feel of this skill today",
        coerce=int,
        choices=[(str(n), f"{n}, {SURE[str(n)]}" if str(n) in SURE else str(n)) for n in range(1, 7)],
        widget=forms.RadioSelect,
        help_text="Your own judgement. It is kept apart from what was seen.",
        error_messages={"required": "Tap a number.", "invalid_choice": "Tap a number from 1 to 6."},
    )


class AskForm(forms.Form):
    """`changes` are {key: (moment, bed, words)}; empty for those who may not see the shift."""

    at = forms.ChoiceField(
        label="When",
        widget=forms.RadioSelect,
        error_messages={
            "required": "Tap when.",
            "invalid_choice": "This change is no longer planned then. Tap one that stands here now.",
        },
    )

    def __init__(self, *args, changes: dict[str, tuple[datetime, str, str]], any_time: bool = True, **kwargs):
        super().__init__(*args, **kwargs)
        self.changes = changes
        self.fields["at"].choices = [
            *([(ANY_TIME, "At any time")] if any_time else []),
            *((key, words) for key, (_, _, words) in changes.items()),
        ]

    def said(self) -> dict:
        if self.cleaned_data["at"] == ANY_TIME:
            return {}
        moment, bed, _ = self.changes[self.cleaned_data["at"]]
        return {"paired_at": moment, "bed": bed}


def changes_to_pair(
    changes: Iterable[DueChange], rows: Iterable[BoardRow], skill: str, ward: Ward, now: datetime
) -> dict[str, tuple[datetime, str, str]]:
    """Changes still to come that fit the skill, soonest first, by bed and time and never by name."""
    beds = {row.stay: row.bed for row in rows}
    return {
        f"{each.at.isoformat()} {each.stay}": (
            each.at, beds[each.stay], f"Bed {beds[each.stay] or 'not given'}, {when(each.at, ward, now)}"
        )
        for each in changes
        if each.at >= now and skill in ("change", skill_to_teach(each.stoma_kind))
    }  # fmt: skip
