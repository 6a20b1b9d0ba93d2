"""The queries of a chart: eleven, however many stays and however many rows.

Each yields named rows by stay. Rows that were recorded after `known_at` are left out; joined parts carry their own
`recorded_at`, so that a later kit or consent does not ride along with an earlier stoma or learner.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from teaching.models import (
    Account,
    Arrangement,
    BodyEvent,
    Caution,
    Learner,
    OutputTotal,
    PlannedHome,
    Rating,
    Stay,
    Stoma,
    UnitSetting,
)
from teaching.models.append_only import Record
from teaching.record.prepared import read

STAY = (
    "pk", "uid", "zone", "recorded_at", "now__revision",
    "details__number", "details__recorded_at", "details__surgery_at", "details__taught_before",
    "events__number", "events__recorded_at", "events__kind", "events__happened_at", "events__unit_id",
    "person__details__number", "person__details__recorded_at", "person__details__language",
)
SETTING = ("unit_id", "recorded_at", "shifts", "leave_hour", "checklist_id", "checklist__uid", "phones")
STOMA = (
    "uid", "recorded_at", "pk", "label", "kind", "construction", "side", "formed_at",
    "kits__number", "kits__recorded_at", "kits__happened_at", "kits__pieces", "kits__shape", "kits__opening",
    "kits__closure", "kits__outlet", "kits__items", "kits__interval_hours", "kits__pre_cut_mm", "kits__cut_limit_mm",
    "nothing__number", "nothing__recorded_at", "nothing__since_at",
)
LEARNER = (
    "uid", "recorded_at", "pk", "kind", "name", "relation",
    "consents__number", "consents__recorded_at", "consents__whose", "consents__yes", "consents__at",
    "hours__number", "hours__recorded_at", "hours__lives_in", "hours__minutes_away", "hours__week", "hours__exceptions",
    "needs__number", "needs__recorded_at", "needs__code", "needs__present",
)
ACCOUNT = (
    "pk", "recorded_at", "number", "kind", "rater_id", "rater_grade", "sign_off_id", "interpreter", "began_at",
    "event__uid", "event__kind", "event__procedure", "event__stoma_id",
    "rater__details__number", "rater__details__recorded_at", "rater__details__name",
    "cosign__recorded_at", "cosign__cosigner_grade",
    "finding__pk", "finding__colour", "finding__wet", "finding__edge", "finding__stands", "finding__width_mm",
    "finding__height_mm", "finding__opening_width_mm", "finding__opening_height_mm", "finding__skin",
    "finding__noticed_by", "finding__bleeding", "finding__wear_end", "finding__leak_track",
)
RATING = (
    "account_id", "recorded_at", "learner_id", "code", "answer", "practice", "reported", "reason", "aids", "note",
)
BODY = ("pk", "recorded_at", "stoma_id", "code", "change", "happened_at")
CAUTION = (
    "pk", "uid", "recorded_at", "stoma_id", "sign", "list", "words", "at",
    "steps__number", "steps__recorded_at", "steps__kind", "steps__whom", "steps__answer",
    "steps__look_again_at", "steps__happened_at",
)
ARRANGEMENT = ("recorded_at", "code", "key", "number", "state", "value", "details", "due_at", "happened_at")
TOTAL = ("recorded_at", "stoma_id", "until_at", "number", "ml")
PLANNED = ("recorded_at", "number", "at", "goes_to")

ByStay = dict[int, list[Any]]


class Rows:
    """All rows of some stays, by stay; `settings` by unit."""

    def __init__(self, stays: Sequence[Stay], known_at: datetime | None) -> None:
        self.keys = [stay.pk for stay in stays]
        self.known_at = known_at
        self.stays = self._by_stay(Stay, STAY, own="pk")
        self.planned = self._by_stay(PlannedHome, PLANNED)
        self.stomas = self._by_stay(Stoma, STOMA)
        self.learners = self._by_stay(Learner, LEARNER)
        self.accounts = self._by_stay(Account, ACCOUNT)
        self.ratings = self._by_stay(Rating, RATING)
        self.body = self._by_stay(BodyEvent, BODY)
        self.cautions = self._by_stay(Caution, CAUTION)
        self.arrangements = self._by_stay(Arrangement, ARRANGEMENT)
        self.totals = self._by_stay(OutputTotal, TOTAL)
        units = sorted({row.events__unit_id for rows in self.stays.values() for row in rows})
        self.settings = {row.unit_id: row for row in self.known(read(UnitSetting, SETTING, "unit_id", units))}

    def known(self, rows: Iterable[Any], part: str = "") -> list[Any]:
        """The rows whose part (its column prefix) is there and was already recorded."""
        name = f"{part}recorded_at"
        if self.known_at is None:
            return [row for row in rows if getattr(row, name) is not None]
        return [row for row in rows if getattr(row, name) is not None and getattr(row, name) <= self.known_at]

    def parts(self, rows: Iterable[Any], part: str) -> list[Any]:
        """One row for each number of a joined part, lowest first, for rows of one parent."""
        by_number = {getattr(row, f"{part}number"): row for row in self.known(rows, part)}
        return [by_number[number] for number in sorted(by_number)]

    def _by_stay(self, model: type[Record], columns: tuple[str, ...], own: str = "stay_id") -> ByStay:
        found: ByStay = defaultdict(list)
        names = columns if own in columns else (*columns, own)
        for row in self.known(read(model, names, own, self.keys)):
            found[getattr(row, own)].append(row)
        return found
