"""Whether a run is enough: two occasions, practice within its share, one confirmed, nothing asked since, in date."""

from dataclasses import dataclass, replace
from datetime import datetime

from teaching.rules.facts import Item, Rating
from teaching.rules.occasions import by_registered, confirms, in_date_for, renewed, separate, streak
from teaching.rules.reasons import Reason
from teaching.rules.reopening import Ask
from teaching.rules.scene import Scene
from teaching.rules.showings import Run, counts, newest_restoring
from teaching.rules.standing import TICK
from teaching.rules.vocabulary import LOWER_REASONS


@dataclass(frozen=True, slots=True)
class Floor:
    """What one floor of one row comes to. `missing` names the first thing wanting, "" where the floor is held.

    `missing` is showing, occasion, real, confirm, ask or date; `until` the moment it would go out of date (UTC).
    """

    run: Run
    evidence: tuple[Rating, ...] = ()
    missing: str = ""
    ask: Ask | None = None
    until: datetime | None = None
    provisional: bool = False

    @property
    def held(self) -> bool:
        return not self.missing


def floor(scene: Scene, item: Item, run: Run) -> Floor:
    """The run judged as it is; if that fails while no stool has come, judged with practice standing for both (I6)."""
    judged = _judge(scene, item, run, practice_stands=False)
    if judged.held or not scene.practice_may_stand(item):
        return judged
    with_practice = _judge(scene, item, run, practice_stands=True)
    return with_practice if with_practice.held and scene.stool_call_booked else judged


def _judge(scene: Scene, item: Item, run: Run, practice_stands: bool) -> Floor:
    counted = [rating for rating in run.showings if counts(rating, item)]
    if not counted:
        return Floor(run, missing="showing")
    if practice_stands:
        counted = [rating for rating in counted if not rating.practice or by_registered(rating.witness)]
        run = replace(run, showings=tuple(counted))
    pair, missing = _pair(scene, item, counted, practice_stands)
    if missing:
        return Floor(run, pair, missing)
    ask = unmet(scene, item, run, practice_stands)
    if ask:
        return Floor(run, pair, "ask", ask)
    newest = counted[-1] if practice_stands else newest_restoring(run, item)
    if newest is None:
        return Floor(run, pair, "real")
    last_for = in_date_for(item, scene.kit, scene.policy)
    taps = tuple(
        tap for tap in scene.rechecks.get(item.procedure, ())
        if not _pair(scene, item, [rating for rating in counted if rating.at <= tap], practice_stands)[1]
    )
    until = renewed(newest.at, taps, last_for) + last_for
    return Floor(run, pair, "" if scene.now <= until else "date", None, until + TICK, practice_stands)


def _pair(
    scene: Scene, item: Item, counted: list[Rating], practice_stands: bool
) -> tuple[tuple[Rating, ...], str]:
    """The newest showings that stand together, and the first thing wanting of them."""
    confirming = [
        rating for rating in counted
        if (by_registered(rating.witness) if practice_stands else not rating.practice and confirms(rating, item))
    ]
    real = counted if practice_stands else [rating for rating in counted if not rating.practice]
    newest = tuple(counted[-1:])
    if streak(item, scene.policy) == 1:
        if not real:
            return newest, "real"
        return (tuple(confirming[-1:]), "") if confirming else (tuple(real[-1:]), "confirm")
    confirmed = _two(scene, item, confirming, counted)
    if confirmed:
        return confirmed, ""
    unconfirmed = _two(scene, item, real, counted)
    if unconfirmed:
        return unconfirmed, "confirm"
    # Practice on two occasions and nothing for real: what is wanting is the real one.
    return newest, "occasion" if real else "real"


def _two(scene: Scene, item: Item, ones: list[Rating], others: list[Rating]) -> tuple[Rating, ...]:
    """The newest of `ones` with one of `others` on a separate occasion; () where there is none."""
    ward, policy = scene.chart.ward, scene.policy
    for one in reversed(ones):
        for other in reversed(others):
            if other is not one and separate(one, other, item, ward, policy):
                return (other, one) if other.at <= one.at else (one, other)
    return ()


def unmet(scene: Scene, item: Item, run: Run, practice_stands: bool = False) -> Ask | None:
    """The newest ask that no showing has answered yet (I7, I8)."""
    own = [Ask(rating.at, item.code, _because(scene, rating), rating.event) for rating in run.asked_at]
    asked = (*own, *(ask for ask in scene.asks if ask.touches_row(item)))
    if not asked:
        return None
    unanswered = [ask for ask in asked if not _answered(ask, item, run, practice_stands)]
    return max(unanswered, key=lambda ask: (ask.at, ask.reason.code), default=None)


def _answered(ask: Ask, item: Item, run: Run, practice_stands: bool) -> bool:
    if practice_stands:
        return any(rating.at > ask.at and rating.event != ask.event for rating in run.showings)
    return newest_restoring(run, item, ask.at, ask.event) is not None


def _because(scene: Scene, rating: Rating) -> Reason:
    return Reason("after-reason", at=scene.local(rating.at), why=LOWER_REASONS[rating.reason])
