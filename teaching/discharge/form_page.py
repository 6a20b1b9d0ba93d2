"""What a form of this room shows around its fields: who it is about, cautions, what it is for."""

from dataclasses import dataclass

from django.utils import timezone

from teaching.rules.band import Band, band_of
from teaching.rules.facts import Chart
from teaching.rules.huddle import HuddleCaution, caution_line, unsettled


@dataclass(frozen=True, slots=True)
class Said:
    """A caution as the page shows it; it is told and settled on the person's page."""

    said: HuddleCaution
    acts: tuple = ()


def cautions_of(chart: Chart, now) -> list[Said]:
    return [Said(caution_line(one, chart.ward, now)) for one in unsettled(chart.cautions)]


class FormPage:
    """`beside`: sentences that help to fill it in."""

    def __init__(
        self, stay, chart: Chart, title: str, why: str = "", button: str = "Store this", beside: list[str] | None = None
    ):
        self.band: Band = band_of(stay.now, chart)
        self.cautions = cautions_of(chart, timezone.now())
        self.title, self.why, self.button, self.beside = title, why, button, beside or []
