"""The unit's own clock: its zone, its shifts, the usual hour of leaving."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo


@dataclass(frozen=True, slots=True)
class Shift:
    """A named span of the local clock; it may cross midnight (starts 19:30, ends 07:30)."""

    name: str
    starts: time
    ends: time


@dataclass(frozen=True)
class Ward:
    """Local time of the unit: zone, shifts in the order they start, the usual hour of leaving."""

    zone: str = "UTC"
    shifts: tuple[Shift, ...] = (
        Shift("day", time(7, 30), time(19, 30)), Shift("night", time(19, 30), time(7, 30)),
    )
    leave_hour: int = 12

    @cached_property
    def _zone(self) -> ZoneInfo:
        return ZoneInfo(self.zone)

    def local(self, moment: datetime) -> datetime:
        """The moment on the unit's own clock. Compare or subtract in UTC, never between two of these."""
        return moment.astimezone(self._zone)

    def shift(self, moment: datetime) -> tuple[date, str]:
        """The shift a moment fell in: the local date it started on, and its name."""
        here = self.local(moment)
        clock = here.time().replace(tzinfo=None)
        started = [shift for shift in self.shifts if shift.starts <= clock]
        if started:
            return here.date(), max(started, key=lambda shift: shift.starts).name
        return here.date() - timedelta(days=1), max(self.shifts, key=lambda shift: shift.starts).name

    def begins(self, day: date) -> datetime:
        """The first moment (UTC) of a day on the unit's own clock."""
        return datetime.combine(day, time.min, tzinfo=self._zone).astimezone(UTC)

    def ends(self, day: date) -> datetime:
        """The last moment (UTC) of a day; where the clock goes back over midnight and strikes it twice, the second."""
        return datetime.combine(day, time.max, tzinfo=self._zone).replace(fold=1).astimezone(UTC)

    def date(self, moment: datetime) -> date:
        return self.local(moment).date()
