"""What the signing page shows: who it is about, and word for word what would be signed."""

from datetime import datetime

from teaching.papers.readiness_record import LEVELS, MEANING, NO_CUT_OFF, SUPPORTS, ReadinessRecord
from teaching.rules.band import Band, band_of
from teaching.rules.facts import Chart


class SignReadinessPage:
    """The cautions stand in the record itself, so the strip above it stays empty."""

    levels, meaning, no_cut_off, supports = LEVELS, MEANING, NO_CUT_OFF, SUPPORTS

    def __init__(self, stay, chart: Chart, paper: ReadinessRecord, now: datetime, shown: str):
        self.band: Band = band_of(stay.now, chart)
        self.paper = paper
        self.shown = shown
        self.judged_at = now.isoformat()
