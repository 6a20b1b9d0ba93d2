"""The run of showings a row stands on: what counts as one, what ends it, what other rows lend (I1, I2, I9-I11).

Two floors are judged alike: on the first only alone (06, or rightly judged) is good; on the second 05 is too.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from teaching.rules.facts import Item, Rating
from teaching.rules.scene import Scene
from teaching.rules.vocabulary import SET_UP_ONLY, UNAIDED

JUDGED_RIGHTLY = ("right", "not_needed")
ALONE = frozenset((UNAIDED, *JUDGED_RIGHTLY))
ALONE_ONCE_SET_OUT = ALONE | {SET_UP_ONLY}
LOWER = frozenset(("01", "02", "03", "04", SET_UP_ONLY, "wrong"))


@dataclass(frozen=True, slots=True)
class Run:
    """`showings` since the last lower rating, own and lent, oldest first. `asked_at` are lower ones with a reason.

    `ended` is the lower rating that ended the run before this one, `before` whether anything was shown before it.
    `lower` are all lower ratings of the row on this floor.
    """

    showings: tuple[Rating, ...]
    asked_at: tuple[Rating, ...] = ()
    ended: Rating | None = None
    before: bool = False
    lower: tuple[Rating, ...] = ()

    @property
    def newest(self) -> Rating | None:
        return self.showings[-1] if self.showings else None


NOTHING = Run(())


def run_of(scene: Scene, item: Item, good: frozenset[str] = ALONE) -> Run:
    """The row's own run on a floor, and what rows of its evidence group lend it."""
    run = own_run(scene, item, good)
    lenders = scene.chart.checklist.lenders.get(item.code, ())
    if not lenders:
        return run
    last_lower, spoilt = _newest(run.lower), {rating.event for rating in run.lower}
    lent = [
        rating
        for lender in lenders
        for rating in own_run(scene, lender).showings
        if rating.event not in spoilt and (last_lower is None or rating.at > last_lower)
    ]
    if not lent:
        return run
    showings = sorted((*run.showings, *lent), key=lambda one: (one.at, one.code, one.event, one.practice))
    return replace(run, showings=tuple(showings))


def own_run(scene: Scene, item: Item, good: frozenset[str] = ALONE) -> Run:
    """Not attempted neither ends a run nor adds to it. At the same claimed time the lower rating is the later;
    in one event (two raters) it alone counts. Practice never stands over a real lower rating made after it.
    """
    seen = scene.seen(item.code)
    if not seen:
        return NOTHING
    if scene.begins_again and "re-sited" in item.reopened_by:
        seen = tuple(rating for rating in seen if rating.at > scene.begins_again)
    lower = tuple(rating for rating in seen if rating.answer in LOWER and rating.answer not in good)
    spoilt = {rating.event for rating in lower}
    against_practice = _newest(rating for rating in lower if not rating.practice)
    shown: list[Rating] = []
    asked: list[Rating] = []
    ended: Rating | None = None
    before = False
    for rating in seen:
        if rating.answer in good:
            if rating.event not in spoilt:
                shown.append(rating)
        elif rating.answer in LOWER and rating.reason:
            asked.append(rating)
        elif rating.answer in LOWER:
            before = before or bool(shown)
            shown, ended = [], rating
    showings = tuple(
        rating for rating in shown
        if not rating.practice or against_practice is None or rating.at > against_practice
    )
    return Run(showings, tuple(asked), ended, before, lower)


def _newest(ratings: Iterable[Rating]) -> datetime | None:
    return max((rating.at for rating in ratings), default=None)


def counts(rating: Rating, item: Item) -> bool:
    """I5: practice counts at all only where the row gives it a share."""
    return not rating.practice or item.practice_share != "none"


def restores(rating: Rating, item: Item) -> bool:
    """I5: a real showing may restore a row alone; practice only where its share is all."""
    return not rating.practice or item.practice_share == "all"


def last_entry(scene: Scene, item: Item) -> Rating | None:
    seen = scene.seen(item.code)
    return seen[-1] if seen else None


def newest_restoring(run: Run, item: Item, after: datetime | None = None, not_in: str = "") -> Rating | None:
    """The newest showing that may restore the row alone, later than `after` and not in the event `not_in`."""
    for rating in reversed(run.showings):
        if after is not None and rating.at <= after:
            return None
        if restores(rating, item) and (not not_in or rating.event != not_in):
            return rating
    return None
