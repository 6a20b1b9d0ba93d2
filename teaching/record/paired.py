"""Ratings that two people made of one event, each alone: for agreement, with nobody named."""

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from teaching.models import Account, Rating, Unit
from teaching.record.seen import effective

Pair = tuple[str, str, str]


def paired_ratings(unit: Unit) -> dict[str, list[Pair]]:
    """{event uid: [(row code, answer of who taught, answer of who rated beside)]} of stays now on the unit.

    Effective accounts only; what either only reported is left out. Two queries, however many there are.
    """
    events = Account.objects.filter(role="paired", stay__now__unit=unit).values("event")
    columns = ("pk", "event__uid", "rater_id", "number", "kind", "role")
    rows = Account.objects.filter(event__in=events).order_by("pk").values_list(*columns, named=True)
    by_event = defaultdict(list)
    for row in effective(rows):
        by_event[str(row.event__uid)].append(row)
    answers = _answers(row.pk for found in by_event.values() for row in found)
    return {event: pairs for event, found in by_event.items() if (pairs := list(_pairs(found, answers)))}


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
