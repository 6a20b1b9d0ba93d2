"""One stay's share in a unit's learning: when somebody was first independent, and how many tries each step took."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.assess import Assessment, assess
from teaching.rules.facts import Chart, Rating
from teaching.rules.lines import Policy
from teaching.rules.reopening import ATTEMPTED
from teaching.rules.vocabulary import UNAIDED

RIGHTLY = ("right", "not_needed")


@dataclass(frozen=True, slots=True)
class Learned:
    """`independent_at` (UTC): when first one learner held every essential step of every stoma; None: not by `until`.

    `tries` by row: (sessions in which its first learner tried it up to the first unaided one, whether that came).
    """

    independent_at: datetime | None
    sessions: int
    tries: tuple[tuple[str, int, bool], ...]


def learned(chart: Chart, policy: Policy, until: datetime) -> Learned:
    """What the stay shows up to `until`: its leaving, or now. Reported and practice tries are left out of `tries`."""
    seen = [rating for rating in chart.ratings if not rating.reported and rating.at <= until]
    return Learned(
        independent_at=first_independent(chart, policy, until),
        sessions=len({rating.event for rating in seen}),
        tries=tuple(_tries(rating for rating in seen if not rating.practice and rating.answer in ATTEMPTED)),
    )


def first_independent(chart: Chart, policy: Policy, until: datetime) -> datetime | None:
    """The first session after which one learner, the person or a helper, held every essential step of every stoma."""
    for moment in sorted({rating.at for rating in chart.ratings if rating.at <= until}):
        if _somebody_holds_all(assess(chart, policy, moment)):
            return moment
    return None


def _somebody_holds_all(found: Assessment) -> bool:
    """Topics are not steps; a row held on practice alone, until real stool comes, is not held for good."""
    steps = [one for one in found.conclusions if one.procedure != "topics"]
    practised = {(one.stoma, one.learner) for one in found.standings if one.provisional}
    for learner in {one.learner for one in steps}:
        own = [one for one in steps if one.learner == learner]
        if all(one.state == "independent" and (one.stoma, learner) not in practised for one in own):
            return True
    return False


def _tries(seen: Iterable[Rating]) -> Iterable[tuple[str, int, bool]]:
    by_row: dict[tuple[str, str], list[Rating]] = {}
    for rating in sorted(seen, key=lambda one: (one.at, one.event)):
        by_row.setdefault((rating.stoma, rating.code), []).append(rating)
    for (_, code), found in by_row.items():
        learner, events, reached = found[0].learner, set(), False
        for rating in found:
            if rating.learner != learner or reached:
                continue
            events.add(rating.event)
            reached = rating.answer == UNAIDED or rating.answer in RIGHTLY
        yield code, len(events), reached
