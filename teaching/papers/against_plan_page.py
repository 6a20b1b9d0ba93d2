"""What the page of leaving against the plan shows beside its form."""

from datetime import datetime

from teaching.papers.against_plan import MEANING, changes_said, lacking_said
from teaching.papers.take_home_facts import to_write_by_hand
from teaching.papers.take_home_page import cautions_of
from teaching.rules.band import Band, band_of


class AgainstPlanPage:
    meaning = MEANING

    def __init__(self, stay, home, readiness, now: datetime, shown: str):
        self.band: Band = band_of(stay.now, home.chart)
        self.cautions = cautions_of(home.chart, now)
        self.lacking = lacking_said(readiness)
        self.by_hand = to_write_by_hand(home.slots)
        self.changes = changes_said(home.chart, readiness)
        self.shown, self.judged_at = shown, now.isoformat()
