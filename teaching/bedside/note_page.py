"""A page with one short form about one person: what it asks, and how it is stored."""

from datetime import datetime

from teaching.bedside.band import band_of
from teaching.bedside.caution_page import cautions_of
from teaching.rules.facts import Chart

NOTE = "teaching/bedside/note.html"


class NotePage:
    """`says` stands above the form; `links` are (address, words) of what stands close to it."""

    def __init__(
        self, stay, chart: Chart, now: datetime, asker, *, title: str, asks: str, button: str,
        says: tuple[str, ...] = (), links: tuple[tuple[str, str], ...] = (),
    ):  # fmt: skip
        self.band = band_of(stay, chart)
        self.cautions = cautions_of(chart, now, asker)
        self.signs_as = asker.signs_as
        self.title, self.asks, self.button, self.says, self.links = title, asks, button, says, links
