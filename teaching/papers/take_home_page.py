"""The page of the take-home sheet: what is still to be filled in and by whom, its language, and the size pages."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.papers.size_page import no_size_page
from teaching.papers.take_home import Blocked, blocked
from teaching.papers.take_home_facts import not_rung, to_write_by_hand
from teaching.rules.band import Band, band_of
from teaching.rules.due import named
from teaching.rules.huddle import HuddleCaution, caution_line, sentences, unsettled
from teaching.rules.spoken import stoma_name

ENGLISH = "English"


@dataclass(frozen=True, slots=True)
class Hole:
    """What is not filled in: the sentence, who can fill it in, and where."""

    words: str
    who: str
    address: str
    link: str


@dataclass(frozen=True, slots=True)
class SizeLine:
    """One stoma's size page: its address, or why there is none."""

    name: str
    address: str
    why_not: str


@dataclass(frozen=True, slots=True)
class CautionOn:
    """A caution above the page; it is told and settled on the person's page."""

    said: HuddleCaution
    acts: tuple = ()


def cautions_of(chart, now: datetime) -> list[CautionOn]:
    return [CautionOn(caution_line(one, chart.ward, now)) for one in unsettled(chart.cautions)]


class TakeHomePage:
    def __init__(self, stay, unit, home, now: datetime, leads: list[str], may_set: bool):
        self.stay, self.unit, self.home, self.now, self.leads, self.may_set = stay, unit, home, now, leads, may_set
        self.band: Band = band_of(stay.now, home.chart)
        self.cautions = cautions_of(home.chart, now)
        self.by_hand = sentences(to_write_by_hand(home.slots), not_rung(home.phones))
        self.holes = [self._hole(one) for one in blocked(home.chart, now, home.slots)]

    @property
    def language(self) -> str:
        """What to do where this person reads another language, or nobody has said which; "" where it is English."""
        if self.home.language == ENGLISH:
            return ""
        if not self.home.language:
            return "Nobody has written down which language this person reads. The sheet is in English: ask first."
        return (
            f"This person reads {self.home.language}. The sheet is in English: a translated sheet is needed, "
            "made by a translator and not by a machine."
        )

    @property
    def sizes(self) -> list[SizeLine]:
        return [self._size(stoma) for stoma in self.home.chart.stomas]

    def _size(self, stoma) -> SizeLine:
        why_not = no_size_page(self.home.chart, stoma, self.home.policy, self.now)
        address = "" if why_not else reverse("size-page", args=[stoma.key])
        which = f"{named(self.home.chart, stoma)}: " if len(self.home.chart.stomas) > 1 else ""
        name = f"{which}{stoma_name(stoma)}"
        return SizeLine(name[:1].upper() + name[1:], address, why_not)

    def _hole(self, one: Blocked) -> Hole:
        if one.arrangement:
            address = reverse("arrange", args=[self.stay.uid, one.arrangement])
            return Hole(one.words, "", address, "Write it down")
        if one.slot:
            who = " or ".join(self.leads) or "the unit lead, once there is one"
            address = reverse("unit-settings", args=[self.unit.uid]) if self.may_set else ""
            said = f"Only the unit's own clinician decides this. It can be set under the unit's settings by {who}."
            return Hole(one.words, said, address, "Open the unit's settings")
        return Hole(one.words, "", reverse("stay-setup", args=[self.stay.uid]), "Write it down")
