"""Cautions that the record itself shows, raised as it is written: leaks close together, high output, tapped signs."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any
from uuid import UUID

from teaching.record.actor import Actor
from teaching.record.cautions import raise_caution
from teaching.record.charts import chart_for
from teaching.rules.cautions import running, signs_of_total, signs_of_wear
from teaching.rules.facts import OutputTotal
from teaching.rules.policy import Policy


def raise_for_wear(actor: Actor, stay: Any, stoma: Any, event_uid: UUID, policy: Policy, now: datetime) -> list:
    """What the wear of this stoma's pouches shows now."""
    signs = signs_of_wear(chart_for(stay), str(stoma.uid), policy, now)
    return raise_once(actor, stay, stoma, signs, now, event_uid)


def raise_for_total(actor: Actor, stay: Any, stoma: Any, until: datetime, ml: int, policy: Policy) -> list:
    """What one 24-hour total shows, raised at the moment up to which it was measured."""
    signs = signs_of_total(OutputTotal(str(stoma.uid), until, ml), chart_for(stay), policy)
    return raise_once(actor, stay, stoma, signs, until)


def raise_once(
    actor: Actor, stay: Any, stoma: Any, signs: Iterable[str], at: datetime, event_uid: UUID | None = None
) -> list:
    """A sign that runs already for this stoma is not raised a second time."""
    already = {one.sign for one in running(chart_for(stay), at) if one.stoma == str(stoma.uid)}
    return [
        raise_caution(actor=actor, stay=stay, sign=sign, at=at, stoma=stoma, event_uid=event_uid)
        for sign in dict.fromkeys(signs)
        if sign not in already
    ]


def say(caution: Any) -> str:
    """What the next page says of it."""
    return f"Stored a caution: {caution.words}. Tell somebody and write whom."
