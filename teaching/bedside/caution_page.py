"""Cautions under the band, and the page of a caution's next step."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.bedside.band import band_of
from teaching.rules.cautions import OUTPUT_SIGNS, normal_since
from teaching.rules.facts import Caution, Chart
from teaching.rules.huddle import HuddleCaution, caution_line, unsettled, when
from teaching.rules.policy import Policy

STEPS = {
    "told": ("I told somebody", "Told to somebody", "Whom, and what they said", "Store: told"),
    "settled": ("It is settled", "Settled", "How it ended", "Store: settled"),
    "mistake": ("It was tapped by mistake", "Tapped by mistake", "What happened", "Store: tapped by mistake"),
}
AGAIN = "I told somebody else"
FLUID_PLAN_ASKED = "Ask for a fluid plan: what to drink, what not, tablets, bloods, and by when the total is looked at."
PERMISSIONS = {"told": "tell_caution", "settled": "settle_caution", "mistake": "settle_caution"}


@dataclass(frozen=True, slots=True)
class CautionLine:
    """`acts` are (address, words) of the steps open to whoever looks."""

    said: HuddleCaution
    acts: tuple[tuple[str, str], ...]


def cautions_of(
    chart: Chart, now: datetime, may=lambda permission: False, policy: Policy | None = None
) -> list[CautionLine]:
    """With the policy, one that was seen normal since it was told says so where it is settled."""
    return [
        CautionLine(
            caution_line(caution, chart.ward, now),
            tuple(
                (step_address(step, caution.key), _offered(step, chart, caution, policy, now))
                for step in (("told", "settled") if caution.told else ("told",))
                if may(PERMISSIONS[step])
            ),
        )
        for caution in unsettled(chart.cautions)
    ]


def _offered(step: str, chart: Chart, caution: Caution, policy: Policy | None, now: datetime) -> str:
    """The words of a step; settling is offered by the normal finding, where there is one."""
    if step == "told" and caution.told:
        return AGAIN
    normal = normal_since(chart, caution, policy, now) if step == "settled" and policy else None
    return f"Normal {when(normal, chart.ward, now)}: settle it" if normal else STEPS[step][0]


def step_address(step: str, key: str) -> str:
    return reverse(f"caution-{step}", args=[key])


class CautionStepPage:
    """One step of one caution; `key` is the caution's uid."""

    def __init__(self, step: str, stay, chart: Chart, key: str, policy: Policy, now: datetime, signs_as: str, may):
        _, self.title, self.asks, self.button = STEPS[step]
        self.band = band_of(stay, chart)
        self.signs_as = signs_as
        caution = next(one for one in chart.cautions if one.key == key)
        self.caution = caution_line(caution, chart.ward, now)
        self.says = FLUID_PLAN_ASKED if step == "told" and caution.sign in OUTPUT_SIGNS else ""
        normal = normal_since(chart, caution, policy, now) if step == "settled" else None
        self.initial = {"how": "normal", "answer": _seen(caution, chart, normal, now)} if normal else {}
        if normal:
            self.says = f"{self.initial['answer']} Settle it if you judge so."
        self.others = [
            (step_address(other, key), STEPS[other][0])
            for other in STEPS
            if other not in (step, "settled") and may(PERMISSIONS[other])
        ]


def _seen(caution: Caution, chart: Chart, normal: datetime, now: datetime) -> str:
    what = "The 24-hour total was lower" if caution.sign in OUTPUT_SIGNS else "Seen normal"
    return f"{what} {when(normal, chart.ward, now)}."
