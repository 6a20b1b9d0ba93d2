"""One person, read from top to bottom: what stands out, teach next, still needed, grid, sessions."""

from collections import Counter
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from teaching.bedside.acts import acts_of
from teaching.bedside.band import Band, band_of
from teaching.bedside.begun import begun_here, put_away_here
from teaching.bedside.caution_page import cautions_of
from teaching.bedside.grid import grids
from teaching.bedside.needed import Needed, because, still_needed, whose
from teaching.bedside.sessions_list import happened
from teaching.bedside.wear import wear
from teaching.record.accounts_of import taken_back
from teaching.record.drafts_of import drafts_of
from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.items import Item
from teaching.rules.reasons import words
from teaching.rules.spoken import other_language
from teaching.rules.vocabulary import LEVEL_CODES, NOT_RATED_CODES, PROCEDURES
from teaching.templatetags.marks import name as mark_name


@dataclass(frozen=True, slots=True)
class Aim:
    """What to teach next, with the words to ask back; `whose` where it is not plainly the person's.

    `which` is the procedure, where two steps of one name stand here.
    """

    item: Item
    which: str
    whose: str
    because: tuple[str, ...]


class PersonPage:
    def __init__(self, stay, chart: Chart, assessment: Assessment, now: datetime, asker):
        self.stay, self.chart, self.assessment, self.now = stay, chart, assessment, now
        self.band: Band = band_of(stay, chart)
        self.cautions = cautions_of(chart, now, asker)
        self.grids = grids(chart, self.band.name, now, self._states())
        self.happened = happened(chart, self.band.name, now, taken_back(stay))
        self.wear = wear(chart, assessment.changes, now)
        self.acts = acts_of(stay, chart, now, asker)
        self.setup = reverse("stay-setup", args=[stay.uid]) if asker("open_stay") else ""
        self.handover = reverse("handover", args=[stay.uid]) if asker("print_handover") else ""
        drafts = list(drafts_of(stay, asker.clinician_id))
        self.begun = begun_here(stay, drafts, chart.ward, now, asker)
        self.put_away = put_away_here(drafts, chart.ward, now, asker)

    @property
    def stands_out(self) -> list[str]:
        said = [words(reason) for reason in self.assessment.stands_out]
        language, waits = other_language(self.chart), self.assessment.waits
        if language and not (waits and waits.code == "call-first"):
            said.append(f"Teach in {language}.")
        return said or ([] if self.begun else ["Nothing beyond what is below."])

    @property
    def aims(self) -> list[Aim]:
        named_alike = Counter(aim.row.item.title for aim in self.assessment.aims)
        return [
            Aim(
                aim.row.item,
                PROCEDURES[aim.row.item.procedure].lower() if named_alike[aim.row.item.title] > 1 else "",
                whose(self.chart, aim.stoma, aim.learner, self.band.name),
                because(aim),
            )
            for aim in self.assessment.aims
        ]

    @property
    def no_aims(self) -> str:
        waits = self.assessment.waits
        if waits:
            call = waits.code == "call-first"
            return "Nothing until somebody is told." if call else "Nothing, unless the person asks."
        wanting = any(one.row.essential and not one.held for one in self.assessment.standings)
        return "Nothing to teach while this lasts." if wanting else "Every step asked for here is held now."

    @property
    def needed(self) -> list[Needed]:
        return still_needed(self.chart, self.assessment, self.band.name)

    def _states(self) -> dict[tuple[str, str, str], str]:
        return {(one.stoma, one.code, one.learner): one.state for one in self.assessment.standings}

    @property
    def marks(self) -> set[tuple[str, bool]]:
        return {mark for grid in self.grids for mark in grid.marks} | {(code, False) for code in KEY_CODES}

    @property
    def key(self) -> list[tuple[str, bool, str]]:
        """Every level and not-rated code, then whatever else this page uses."""
        more = sorted(self.marks - {(code, False) for code in KEY_CODES})
        return [
            (code, practice, mark_name(code, practice))
            for code, practice in [*((code, False) for code in KEY_CODES), *more]
        ]


KEY_CODES = (*LEVEL_CODES, *NOT_RATED_CODES)
