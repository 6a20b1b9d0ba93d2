"""Moments as a kept paper says them: by date, since "tomorrow" is wrong a day later."""

from datetime import date, datetime

from teaching.rules.band import day_words as day
from teaching.rules.facts import Caution
from teaching.rules.huddle import DAYS, MONTHS, spoken_date
from teaching.rules.vocabulary import CAUTION_LISTS
from teaching.rules.ward import Ward

LONG_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def dated(moment: datetime, ward: Ward) -> str:
    """Such as "Wed 13 May 2026 14:30", on the ward's own clock."""
    here = ward.local(moment)
    return f"{DAYS[here.weekday()]} {day(here.date())} {here:%H:%M}"


def short(moment: datetime, ward: Ward) -> str:
    """Such as "Wed 13 May 14:30", where the year stands at the head of the paper."""
    here = ward.local(moment)
    return f"{spoken_date(here.date())} {here:%H:%M}"


def weekday(when: date) -> str:
    """Such as "Thursday 14 May"."""
    return f"{LONG_DAYS[when.weekday()]} {when.day} {MONTHS[when.month - 1]}"


def caution_said(caution: Caution, ward: Ward, now: datetime) -> tuple[str, str, str]:
    """Which list, the sign in its own words, and how far it is."""
    if caution.told is None:
        state = f"open since {short(caution.at, ward)}, nobody told yet"
    else:
        state = f"told {short(caution.told, ward)}"
        state += f" ({caution.told_whom})" if caution.told_whom else ""
        state += f", answer: {caution.answer}" if caution.answer else ", no answer written"
        if caution.look_again_at:
            over = caution.look_again_at < now
            state += f", look again {'was due ' if over else ''}{short(caution.look_again_at, ward)}"
        state += ", not settled"
    return CAUTION_LISTS.get(caution.list, caution.list), caution.words, state
