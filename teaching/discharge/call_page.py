"""The work list of calls after leaving, and the page of one call."""

from dataclasses import dataclass
from datetime import datetime

from teaching.record.calls import Owed
from teaching.rules.huddle import when
from teaching.rules.vocabulary import STOMA_KINDS
from teaching.rules.ward import Ward


@dataclass(frozen=True, slots=True)
class Line:
    """One person: whom, since when at home, until when to ring, and what was tried."""

    stay: str
    name: str
    stoma: str
    left: str
    ring: str
    tried: str
    overdue: bool
    noted: bool


class CallsPage:
    def __init__(self, unit, ward: Ward, owed: list[Owed], now: datetime):
        self.unit = unit.name
        self.ward, self.now = ward, now
        self.lines = [self._line(one) for one in owed]

    def _line(self, one: Owed) -> Line:
        overdue = one.call.overdue(self.now)
        by = when(one.call.by, self.ward, self.now)
        since = "" if one.call.since <= self.now else f"from {when(one.call.since, self.ward, self.now)} "
        return Line(
            stay=one.stay,
            name=one.name,
            stoma=" and ".join(STOMA_KINDS[kind] for kind in one.kinds) or "no stoma written down",
            left=f"Left {when(one.left_at, self.ward, self.now)}." if one.noted else "Not noted as left yet.",
            ring=(f"The call was due by {by}" if overdue else f"Ring {since}by {by}") + self._promised(one),
            tried=self._tried(one),
            overdue=overdue,
            noted=one.noted,
        )

    def _promised(self, one: Owed) -> str:
        return f", as promised on leaving against the plan: {one.promised_by}." if one.promised_by else "."

    def _tried(self, one: Owed) -> str:
        if not one.heard:
            return "Not tried yet."
        times = "once" if len(one.heard) == 1 else f"{len(one.heard)} times"
        return f"Tried {times}, last {when(one.heard[-1].at, self.ward, self.now)}: no answer."
