"""The form of an observed practice: where, each row on the five levels or X, nothing preset."""

from django import forms

from teaching.access.ward_time import WardTimeField
from teaching.record.practices import LONGEST_WORDS
from teaching.rules.competence_facts import Skill
from teaching.rules.vocabulary import BONDY, PRACTICE_SETTINGS

TAP_A_LEVEL = "Tap what you saw, or X where you did not see it."


class PracticeForm(forms.Form):
    """Fields are named by the skill's rows, so that each fault stands beside its row."""

    setting = forms.ChoiceField(
        label="Where it was",
        widget=forms.RadioSelect,
        error_messages={"required": "Tap where it was.", "invalid_choice": "Tap one of these."},
    )
    words = forms.CharField(
        label="What would help next time",
        required=False,
        max_length=LONGEST_WORDS,
        help_text="For this nurse to read. No person in care is named here.",
        widget=forms.Textarea(attrs={"rows": 3}),
    )
    at = WardTimeField(required=False, label="It was earlier", help_text="Left empty, it was just now.")

    def __init__(self, *args, skill: Skill, zone: str, now, **kwargs):
        super().__init__(*args, **kwargs)
        self.skill, self.now = skill, now
        settings = [(code, words.capitalize()) for code, words in PRACTICE_SETTINGS.items() if code in skill.settings]
        self.fields["setting"].choices = settings
        self.fields["at"].on(zone)
        for row in skill.rows:
            self.fields[row.code] = forms.ChoiceField(
                label=row.title,
                choices=[(code, level.name) for code, level in BONDY.items()],
                widget=forms.RadioSelect,
                error_messages={"required": TAP_A_LEVEL, "invalid_choice": TAP_A_LEVEL},
            )

    @property
    def rows(self):
        return [self[row.code] for row in self.skill.rows]

    def said(self) -> dict:
        """What the verb is told."""
        data = self.cleaned_data
        return {
            "setting": data["setting"],
            "words": data["words"],
            "at": data["at"] or self.now,
            "levels": {row.code: data[row.code] for row in self.skill.rows},
        }


class TakeBackForm(forms.Form):
    words = forms.CharField(
        label="Why it is taken back",
        max_length=LONGEST_WORDS,
        help_text="Such as: this was recorded for the wrong nurse.",
        error_messages={"required": "Write why, so that it can be understood later."},
    )
