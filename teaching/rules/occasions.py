"""When two showings are two occasions (I3), who may confirm (I4), and how long evidence is in date (I12)."""

from datetime import datetime, timedelta

from teaching.rules.facts import Item, Kit, Rating, Ward, Witness
from teaching.rules.lines import Policy

BY_DATE = ("change", "meeting")
CLOSE = "close"  # the one row of a change that any registered nurse may confirm


def separate(one: Rating, other: Rating, item: Item, ward: Ward, policy: Policy) -> bool:
    """Two ratings of one event are never two occasions, whoever rated."""
    if one.event == other.event:
        return False
    if item.procedure in BY_DATE:
        return one.practice != other.practice or ward.date(one.at) != ward.date(other.at)
    return abs(one.at - other.at) >= policy.spacing or ward.shift(one.at) != ward.shift(other.at)


def by_registered(witness: Witness) -> bool:
    """A registered nurse saw it, or a student whose entry one co-signed."""
    grade = witness.cosigned_by if witness.grade == "student" else witness.grade
    return grade in ("registered", "stoma-nurse")


def confirms(rating: Rating, item: Item) -> bool:
    """Whether who saw this real showing may confirm the row. A co-signature is a registered nurse's, never more."""
    witness = rating.witness
    if item.procedure == "change" and item.code != CLOSE:
        return witness.grade == "stoma-nurse" or (witness.grade == "registered" and witness.signed_off)
    return by_registered(witness)


def streak(item: Item, policy: Policy) -> int:
    return policy.change_streak if item.procedure in BY_DATE else policy.emptying_streak


def in_date_for(item: Item, kit: Kit | None, policy: Policy) -> timedelta:
    """How long after the newest showing the row is still in date; the last moment of it counts."""
    if item.procedure not in BY_DATE:
        return policy.emptying_date
    interval = timedelta(hours=kit.interval_hours or 0) if kit else timedelta()
    return max(policy.change_date, policy.change_date_intervals * interval)


def renewed(newest: datetime, rechecks: tuple[datetime, ...], last_for: timedelta) -> datetime:
    """The date of a held row after its recheck taps, in order. A tap on a row already out of date renews nothing."""
    for at in rechecks:
        if newest < at <= newest + last_for:
            newest = at
    return newest
