"""The band of a stay, for the pages of this room."""

from teaching.rules import band
from teaching.rules.band import Band as Band
from teaching.rules.band import day_words as day_words
from teaching.rules.facts import Chart
from teaching.rules.spoken import stoma_name as stoma_name


def band_of(stay, chart: Chart) -> Band:
    return band.band_of(stay.now, chart)
