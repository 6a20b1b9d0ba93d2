"""Moments as a person writes them in a stay file, on the ward's own clock.

2026-05-11 10:00         on the ward's clock
2026-05-11 10:00-04:00   with its offset from UTC (or Z), needed where the clock says one time twice
day 3 10:00              counted from the day of surgery, which is day 0 (common practice, no source)
"""

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

WRITTEN = re.compile(
    r"(?:day (?P<day>-?\d{1,3})|(?P<date>\d{4}-\d{2}-\d{2}))[ T]"
    r"(?P<clock>\d{1,2}:\d{2}(?::\d{2}(?:\.\d{1,6})?)?)(?P<offset>Z|[+-]\d{2}:\d{2})?"
)


@dataclass(frozen=True)
class Clock:
    """The ward's zone and the local date of surgery, None while none is known."""

    zone: str
    surgery: date | None = None

    def moment(self, text: object) -> datetime:
        """The moment in UTC. Raises ValueError with a sentence that says how to mend the text."""
        found = WRITTEN.fullmatch(text.strip()) if isinstance(text, str) else None
        if not found:
            raise ValueError(f'{text!r} is not a time; write "2026-05-11 10:00" or "day 3 10:00".')
        here = datetime.combine(self._date(found), _clock(found["clock"]).time())
        if found["offset"]:
            return here.replace(tzinfo=_offset(found["offset"])).astimezone(UTC)
        return self._on_the_ward(here)

    def _date(self, found: re.Match[str]) -> date:
        if found["day"] is None:
            try:
                return date.fromisoformat(found["date"])
            except ValueError:
                raise ValueError(f"{found['date']} is not a day of the calendar; correct it.") from None
        if self.surgery is None:
            raise ValueError(
                "a day counted from surgery needs the top key surgery as a date; add it, or write the date."
            )
        return self.surgery + timedelta(days=int(found["day"]))

    def _on_the_ward(self, here: datetime) -> datetime:
        zone = ZoneInfo(self.zone)
        first, second = (here.replace(tzinfo=zone, fold=fold) for fold in (0, 1))
        before, after = first.utcoffset(), second.utcoffset()
        assert before is not None and after is not None
        if before < after:
            raise ValueError(
                f"{here:%Y-%m-%d %H:%M} never was in {self.zone}: the clocks went forward over it; "
                "correct the time."
            )
        if before > after:
            raise ValueError(
                f"{here:%Y-%m-%d %H:%M} came twice in {self.zone}: the clocks went back; "
                f'add "{_written(before)}" for the first or "{_written(after)}" for the second.'
            )
        return first.astimezone(UTC)


def written(moment: datetime, zone: str) -> str:
    """The moment as a stay file says it: on the ward's clock, with the offset only where it is needed."""
    here = moment.astimezone(ZoneInfo(zone))
    naive = here.replace(tzinfo=None)
    text = naive.isoformat(" ", "auto" if here.second or here.microsecond else "minutes")
    try:
        Clock(zone).moment(text)
    except ValueError:
        offset = here.utcoffset()
        assert offset is not None
        return text + _written(offset)
    return text


def _clock(text: str) -> datetime:
    try:
        return datetime.fromisoformat(f"2000-01-01 {'0' if text[1] == ':' else ''}{text}")
    except ValueError:
        raise ValueError(f"{text} is not a time of day; write it as 07:30.") from None


def _offset(text: str) -> timezone:
    if text == "Z":
        return UTC
    hours, minutes = int(text[1:3]), int(text[4:])
    if hours > 14 or minutes > 59:
        raise ValueError(f"{text} is not an offset from UTC; write one such as -04:00.")
    return timezone(timedelta(hours=hours, minutes=minutes) * (-1 if text[0] == "-" else 1))


def _written(offset: timedelta) -> str:
    sign, size = ("-", -offset) if offset < timedelta(0) else ("+", offset)
    return f"{sign}{size.seconds // 3600:02}:{size.seconds // 60 % 60:02}"
