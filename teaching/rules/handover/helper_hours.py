"""When a helper is there, in words, from the 168 hours of a week."""

from collections.abc import Callable
from datetime import datetime
from itertools import groupby

from teaching.rules.cover import hours_said
from teaching.rules.facts import Learner
from teaching.rules.huddle import DAYS, when
from teaching.rules.reasons import Counted
from teaching.rules.ward import Ward

DAY = 24  # hours
THERE = "1"


def hours_there(helper: Learner, ward: Ward, now: datetime, say: Callable[[datetime], str] | None = None) -> str:
    """Such as "lives in; there Mon to Fri 18:00-24:00, Sat and Sun all day"; exceptions still ahead follow.

    `say` tells a moment on a paper that is kept; else it is told as seen from now.
    """
    tell = say or (lambda moment: when(moment, ward, now))
    said = []
    if helper.lives_in:
        said.append("lives in")
    elif helper.minutes_away is not None:
        said.append(f"{Counted(helper.minutes_away):minute} away")
    if THERE in helper.week:
        said.append(f"there {week_words(helper.week)}")
    elif not hours_said(helper):
        said.append("hours not known")
    ahead = sorted(each for each in helper.exceptions if each[1] > now)
    for begins, ends, there in ahead:
        here = "there" if there else "not there"
        said.append(f"{here} from {tell(begins)} to {tell(ends)}")
    return "; ".join(said)


def week_words(week: str) -> str:
    """A week of 168 characters 0 and 1, Monday 00:00 first. Days that are alike stand together."""
    if THERE not in week:
        return "at no hour"
    if set(week) == {THERE}:
        return "at all hours"
    days = [(_day_words(week[place * DAY : (place + 1) * DAY]), DAYS[place]) for place in range(len(DAYS))]
    runs = [(said, [day for _, day in run]) for said, run in groupby(days, key=lambda each: each[0])]
    return ", ".join(f"{_days(names)} {said}" for said, names in runs if said)


def _days(names: list[str]) -> str:
    if len(names) == 1:
        return names[0]
    return f"{names[0]} and {names[-1]}" if len(names) == 2 else f"{names[0]} to {names[-1]}"


def _day_words(day: str) -> str:
    """Such as "00:00-07:00 and 18:00-24:00"; "" where never, "all day" where always."""
    if THERE not in day:
        return ""
    if set(day) == {THERE}:
        return "all day"
    spans, hour = [], 0
    for there, run in groupby(day):
        length = len(list(run))
        if there == THERE:
            spans.append(f"{hour:02}:00-{hour + length:02}:00")
        hour += length
    return " and ".join(spans)
