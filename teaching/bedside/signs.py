"""The signs a nurse is asked about at the bedside, those of the policy that no finding shows."""

from datetime import datetime

from django import forms

from teaching.rules.checklist import conditions, features, holds, kit_at, states_at
from teaching.rules.facts import Chart
from teaching.rules.policy import Policy
from teaching.rules.vocabulary import CAUTION_LISTS

FIELD = "signs"
ASKED = {
    "call_now": "Is there any of these? Call now",
    "today": "Or any of these? Stoma nurse today",
}


def asked_signs(policy: Policy, chart: Chart, now: datetime) -> dict[str, list[tuple[str, str]]]:
    """{list: [(code, words)]} of the signs that are asked and fit any stoma of this person."""
    present = [
        features(stoma, kit_at(chart, stoma.key, now), states_at(chart, stoma.key, now)) for stoma in chart.stomas
    ]
    found: dict[str, list[tuple[str, str]]] = {code: [] for code in CAUTION_LISTS}
    for sign in policy.signs:
        fits = any(holds(conditions(sign.applies), features_here) for features_here in present)
        if sign.asked == "tap" and sign.list in found and fits:
            found[sign.list].append((sign.code, policy.words(sign)))
    return found


def sign_fields(policy: Policy, chart: Chart, now: datetime) -> dict[str, forms.Field]:
    return {
        f"{FIELD}.{code}": forms.MultipleChoiceField(
            label=ASKED[code], choices=choices, required=False, widget=forms.CheckboxSelectMultiple
        )
        for code, choices in asked_signs(policy, chart, now).items()
        if choices
    }


def signs_tapped(cleaned: dict) -> list[str]:
    return [code for name in CAUTION_LISTS for code in cleaned.get(f"{FIELD}.{name}", ())]
