"""Cautions under the band, and the page of a caution's next step."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.bedside.band import band_of
from teaching.rules.facts import Chart
from teaching.rules.huddle import HuddleCaution, caution_line, unsettled

STEPS = {
    "told": ("I told somebody", "Told to somebody", "Whom, and what they said", "Store: told"),
    "settled": ("It is settled", "Settled", "What settles it", "Store: settled"),
    "mistake": ("It was tapped by mistake", "Tapped by mistake", "What happened", "Store: tapped by mistake"),
}
PERMISSIONS = {"told": "tell_caution", "settled": "settle_caution", "mistake": "settle_caution"}


@dataclass(frozen=True, slots=True)
class CautionLine:
    """`acts` are (address, words) of the steps open to whoever looks."""

    said: HuddleCaution
    acts: tuple[tuple[str, str], ...]


def cautions_of(chart: Chart, now: datetime, may=lambda permission: False) -> list[CautionLine]:
    return [
        CautionLine(
            caution_line(caution, chart.ward, now),
            tuple(
                (step_address(step, caution.key), STEPS[step][0])
                for step in (("told", "settled") if caution.told else ("told",))
                if may(PERMISSIONS[step])
            ),
        )
        for caution in unsettled(chart.cautions)
    ]


def step_address(step: str, key: str) -> str:
    return reverse(f"caution-{step}", args=[key])


class CautionStepPage:
    """One step of one caution; `key` is the caution's uid."""

    def __init__(self, step: str, stay, chart: Chart, key: str, now: datetime, signs_as: str, may):
        _, self.title, self.asks, self.button = STEPS[step]
        self.band = band_of(stay, chart)
        self.signs_as = signs_as
        caution = next(one for one in chart.cautions if one.key == key)
        self.caution = caution_line(caution, chart.ward, now)
        self.others = [
            (step_address(other, key), STEPS[other][0])
            for other in STEPS
            if other not in (step, "settled") and may(PERMISSIONS[other])
        ]
