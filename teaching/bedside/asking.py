"""Asking about what is unlikely and not impossible: a sentence beside the field, and one tap that says it is so.

    def clean(self):
        cleaned = super().clean()
        ask(self, asked_of(self.chart, stoma, at, finding_in(cleaned), self.policy, answers))

The first time the form comes back, nothing stored, with the sentences and a button "It is so, sign"
(`bedside/asked.html`). The button carries what was asked, so a value changed meanwhile is asked about anew.
"""

from collections.abc import Mapping, Sequence
from datetime import datetime
from hashlib import sha256

from django import forms

from teaching.record.entries import FindingEntry
from teaching.rules.checklist import kit_at, states_at
from teaching.rules.facts import Chart, Finding
from teaching.rules.fit import opening_asks, powder_asks
from teaching.rules.policy import Policy
from teaching.rules.reasons import words

IT_IS_SO = "it_is_so"
POWDER_ROW = "powder"
PUT_ON = "right"
LENGTHS = ("width_mm", "height_mm", "opening_width_mm", "opening_height_mm")


def asked_of(
    chart: Chart,
    stoma: str,
    at: datetime,
    finding: FindingEntry | None,
    policy: Policy,
    answers: Mapping[str, str] | None = None,
) -> list[tuple[str, str]]:
    """(field, sentence) of what is unlikely in this finding. `answers` are {row: answer} of the same session."""
    answers = answers or {}
    if finding is None:
        return []
    lengths = {name: None if (value := getattr(finding, name)) is None else float(value) for name in LENGTHS}
    seen = Finding(stoma, at, "", edge=finding.edge, skin=tuple(sorted(finding.skin.items())), **lengths)
    found = opening_asks(seen, kit_at(chart, stoma, at), states_at(chart, stoma, at), policy)
    used = answers.get(POWDER_ROW) == PUT_ON
    found += powder_asks(finding.powder_where.split(), dict(finding.skin), used)
    return [(f"finding.{name}", words(reason)) for name, reason in found]


def ask(form: forms.Form, found: Sequence[tuple[str, str]]) -> None:
    """Beside each field its sentence, unless the form says of these very ones that it is so."""
    form.asked = _token(found) if found else ""
    if form.asked and form.data.get(IT_IS_SO) != form.asked:
        for field, sentence in found:
            form.add_error(field if field in form.fields else None, sentence)


def _token(found: Sequence[tuple[str, str]]) -> str:
    return sha256("\n".join(f"{field}: {sentence}" for field, sentence in found).encode()).hexdigest()[:16]
