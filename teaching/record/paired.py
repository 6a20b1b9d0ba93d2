"""Ratings that two people made of one event, each alone: for agreement, and for a nurse's own learning curve."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime
from typing import Any

from teaching.models import Account, Rating, Unit
from teaching.record.seen import effective

Pair = tuple[str, str, str]


def paired_ratings(unit: Unit) -> dict[str, list[Pair]]:
    """{event uid: [(row code, answer of who taught, answer of who rated beside)]} of stays now on the unit.

    Effective accounts only; what either only reported is left out. Two queries, however many there are.
    """
    by_event = _standing(Account.objects.filter(role="paired", stay__now__unit=unit).values("event"))
    answers = _answers(row.pk for found in by_event.values() for row in found)
    return {event: pairs for event, found in by_event.items() if (pairs := list(_pairs(found, answers)))}


def rated_with_a_holder(nurse: int) -> list[tuple[datetime, list[Pair]]]:
    """The sessions a nurse (by key) and somebody signed off then both rated, oldest first: (began, pairs).

    Whoever taught stands first in each pair. Never who the person was. Two queries, however many there are.
    """
    both = Account.objects.filter(event__in=Account.objects.filter(role="paired").values("event"))
    by_event = _standing(both.filter(rater=nurse).values("event"))
    answers = _answers(row.pk for found in by_event.values() for row in found)
    sessions = []
    for found in by_event.values():
        own = [row for row in found if row.rater_id == nurse]
        holders = [row for row in found if row.rater_id != nurse and row.sign_off_id]
        pairs = list(_pairs(sorted(own + holders[:1], key=lambda row: row.role == "paired"), answers))
        if pairs:
            sessions.append((own[0].began_at, pairs))
    return sorted(sessions, key=lambda session: session[0])


def _standing(events: Any) -> dict[str, list[Any]]:
    """The effective accounts of these events, by event uid."""
    columns = ("pk", "event__uid", "rater_id", "number", "kind", "role", "sign_off_id", "began_at")
    rows = Account.objects.filter(event__in=events).order_by("pk").values_list(*columns, named=True)
    by_event = defaultdict(list)
    for row in effective(rows):
        by_event[str(row.event__uid)].append(row)
    return by_event


def _answers(accounts: Iterable[int]) -> dict[int, dict[tuple[str, int], str]]:
    found: dict[int, dict[tuple[str, int], str]] = defaultdict(dict)
    rated = Rating.objects.filter(account__in=list(accounts), reported=False)
    for account, code, learner, answer in rated.values_list("account_id", "code", "learner_id", "answer"):
        found[account][code, learner] = answer
    return found


def _pairs(accounts: list[Any], answers: dict[int, dict[tuple[str, int], str]]) -> Iterable[Pair]:
    """Whoever taught against each who rated beside; rows that both rated."""
    taught = [row for row in accounts if row.role != "paired"]
    for first in taught[:1]:
        for second in (row for row in accounts if row.role == "paired"):
            for (code, learner), answer in sorted(answers[first.pk].items()):
                if (code, learner) in answers[second.pk]:
                    yield code, answer, answers[second.pk][code, learner]
