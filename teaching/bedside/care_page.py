"""What stands around the form of care given."""

from datetime import datetime

from teaching.bedside.band import band_of
from teaching.bedside.caution_page import cautions_of
from teaching.rules.facts import Chart


class CarePage:
    title, sign = "Care given, or a leak", "Sign: I did this"

    def __init__(self, stay, chart: Chart, now: datetime, asker):
        self.band = band_of(stay, chart)
        self.cautions = cautions_of(chart, now)
        self.clock = f"{chart.ward.local(now):%H:%M}"
        self.happened = f"now, {self.clock}"
        self.signs_as = asker.signs_as
