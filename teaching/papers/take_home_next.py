"""When the next pouch change is, for whoever takes the sheet along: a nurse who comes for it in time, else when due."""

from dataclasses import dataclass
from datetime import datetime

from teaching.papers.dated import dated, weekday
from teaching.papers.take_home_who import BY_HAND
from teaching.rules.due import named, next_change
from teaching.rules.facts import Chart, Stoma
from teaching.rules.in_place import accepted

BEFORE_YOU_GO = "now, before you go"


@dataclass(frozen=True, slots=True)
class NextPouch:
    """For one stoma: `due` after leaving, `visit` for it by then, and since when it is `overdue` (UTC); None: no."""

    stoma: Stoma
    due: datetime | None
    visit: datetime | None
    overdue: datetime | None = None

    @property
    def at(self) -> datetime | None:
        return self.visit or self.due


def next_pouch(chart: Chart, stoma: Stoma, due: datetime | None, since: datetime) -> NextPouch:
    """`due` is the first change due after leaving, `since` the leaving. A visit after it is due comes too late."""
    visits = [one.at for one in accepted(chart, since, stoma.key) if one.for_change and (due is None or one.at <= due)]
    return NextPouch(stoma, due, min(visits, default=None))


def next_at_the_door(chart: Chart, stoma: Stoma, due: datetime | None, now: datetime) -> NextPouch:
    """For somebody who leaves at `now`: what is due by then is changed before they go."""
    planned = next_change(chart, stoma, now).due
    if planned and planned <= now:
        return NextPouch(stoma, due, None, overdue=planned)
    return next_pouch(chart, stoma, due, now)


def said_to_the_person(chart: Chart, one: NextPouch) -> str:
    """Such as "Saturday 16 May, in the morning" or "Friday 15 May, 10:00, with a nurse"; a line where not known."""
    if one.overdue:
        return BEFORE_YOU_GO
    if one.visit:
        return f"{weekday(chart.ward.date(one.visit))}, {chart.ward.local(one.visit):%H:%M}, with a nurse"
    return f"{weekday(chart.ward.date(one.due))}, {_time_of_day(chart, one.due)}" if one.due else BY_HAND


def said_for_the_record(chart: Chart, one: NextPouch) -> str:
    """The same with its full date, and when it was or is due."""
    if one.overdue:
        said = f"was due {dated(one.overdue, chart.ward)}: to be changed before leaving"
    elif one.due is None:
        said = "when it is due is not known"
    else:
        said = f"due {dated(one.due, chart.ward)}"
    if one.visit:
        said += f"; a nurse comes to change it {dated(one.visit, chart.ward)}"
    named_first = f"{named(chart, one.stoma)}: {said}." if len(chart.stomas) > 1 else f"{said}."
    return named_first[:1].upper() + named_first[1:]


def then_every(interval: int | None) -> str:
    """Such as "Then every 3 days."; 84 hours is "every 3 to 4 days"."""
    if interval is None:
        return ""
    days, over = divmod(interval, 24)
    said = f"{days} to {days + 1} days" if over and days else f"{days} days" if days > 1 else "day"
    return f"Then every {said}."


def _time_of_day(chart: Chart, at: datetime) -> str:
    hour = chart.ward.local(at).hour
    return "in the morning" if hour < 12 else "in the afternoon" if hour < 18 else "in the evening"
