"""Do two nurses mean the same by a level? Three figures side by side, and the rows to talk about. Nobody is named."""

from collections.abc import Mapping

from teaching.analysis.reading_apart import Reading
from teaching.analysis.reading_said import count_said, floor_said, lines, rows, talk_about
from teaching.rules.vocabulary import ANSWERS


class AgreementPage:
    def __init__(self, unit, titles: Mapping[str, str], reading: Reading):
        self.unit, self.count, self.floor = unit.name, count_said(reading), floor_said(reading)
        self.lines, self.rows = lines(reading), rows(reading, titles)
        self.talk_about = talk_about(self.rows)
        self.levels = [
            (code, ANSWERS[code].words) for code in sorted({code for row in self.rows for code in row.levels})
        ]
