"""How early rows can be held, exactly: opportunities swept in time, keeping only the states that nothing beats.

The evidence of one learner in one row comes down to three numbers, and smaller is better in each:
the first showing, the first confirming one (both at PAIRED once two stand together), and how stale the newest is.
Adding a showing never harms, what follows depends on these alone, and a row is held sooner the smaller they are.
So a state that is worse in all of them than another can go.
"""

from collections.abc import Sequence

from teaching.rules.chances import ANY_TIME, NEVER, Rule, Worth, ticks
from teaching.rules.facts import Item, Rating
from teaching.rules.floors import unmet
from teaching.rules.occasions import by_registered, renewed, separate
from teaching.rules.scene import Scene
from teaching.rules.showings import Run
from teaching.rules.standing import TICK

PAIRED = -1  # better than any moment: two showings stand together, one of them confirmed

Track = tuple[int, int, int]  # first, first confirming, the newest that restores (as its negative, so older is more)
States = set[tuple[Track, ...]]
Step = tuple[int, Rule, Worth]  # which track moves on, by what rule, on what showing


def track_of(scene: Scene, item: Item, rule: Rule, run: Run) -> Track:
    """What the run of a row comes to at the scene's moment, as `floors.floor` judges it."""
    counted = [rating for rating in run.showings if rule.counts(rating.practice)]
    if rule.practice_stands:
        counted = [rating for rating in counted if not rating.practice or by_registered(rating.witness)]
        run = Run(tuple(counted), run.asked_at, run.ended, run.before, run.lower)
    restoring = [rating.at for rating in counted if rule.restores(rating.practice)]
    fresh = ANY_TIME
    paired = _together(scene, item, rule, counted)
    if restoring and not unmet(scene, item, run, rule.practice_stands):
        newest = max(restoring)
        if paired:
            taps = tuple(
                tap for tap in scene.rechecks.get(item.procedure, ())
                if _together(scene, item, rule, [rating for rating in counted if rating.at <= tap])
            )
            newest = renewed(newest, taps, rule.last_for * TICK)
        fresh = ticks(newest)
    if paired:
        return PAIRED, PAIRED, -fresh
    first = min((rule.stands_at(ticks(rating.at), rating.practice) for rating in counted), default=NEVER)
    confirmed = min((ticks(rating.at) for rating in counted if rule.confirmed_by(rating, item)), default=NEVER)
    return first, confirmed, -fresh


def _together(scene: Scene, item: Item, rule: Rule, counted: list[Rating]) -> bool:
    """Two of these stand on separate occasions, one of them confirmed."""
    confirming = [rating for rating in counted if rule.confirmed_by(rating, item)]
    if rule.once:
        return bool(confirming)
    ward, policy = scene.chart.ward, scene.policy
    return any(separate(one, other, item, ward, policy) for one in confirming for other in counted)


def step(track: Track, rule: Rule, shown: Worth) -> Track:
    """The evidence after one planned showing."""
    first, confirmed, fresh = track
    if first != PAIRED:
        if (confirmed < shown.since and not rule.once) or (shown.confirms and (rule.once or first < shown.since)):
            first = confirmed = PAIRED
        else:
            first = min(first, shown.stands_at)
            if shown.confirms:
                confirmed = min(confirmed, shown.at)
    return first, confirmed, -shown.at if shown.restores else fresh


def holds(track: Track, rule: Rule, at: int) -> bool:
    """The last moment of being in date counts."""
    return track[0] == PAIRED and at <= rule.last_for - track[-1]


def alone(track: Track, rule: Rule, times: Sequence[int], shown: Sequence[Worth | None]) -> int:
    """One learner, who shows the row whenever there is a chance: at which of the moments it is held, as bits."""
    held, bit = 0, 1
    for at, showing in zip(times, shown, strict=True):
        if showing is not None:
            track = step(track, rule, showing)
        if holds(track, rule, at):
            held |= bit
        bit <<= 1
    return held


def several(start: tuple[Track, ...], wanted: Sequence[Sequence[tuple[int, Rule]]], times: Sequence[int],
            steps: Sequence[Sequence[Sequence[Sequence[Step]]]]) -> int:
    """More than one must learn: at which of the moments some way of sharing the showings holds all, as bits.

    `wanted`: all of these must hold, each by any of its tracks. `steps`: at each moment the rows that may be shown;
    for each row who might show it; for each of those which tracks it moves on. Leaving one out is never better.
    """
    held, bit = 0, 1
    states: States = {start}
    for at, rows in zip(times, steps, strict=True):
        for choices in rows:
            states = {_after(state, choice) for state in states for choice in choices}
        if rows and len(states) > 1:
            states = _unbeaten(states)
        if any(all(any(holds(state[track], rule, at) for track, rule in ways) for ways in wanted) for state in states):
            held |= bit
        bit <<= 1
    return held


def _after(state: tuple[Track, ...], choice: Sequence[Step]) -> tuple[Track, ...]:
    tracks = list(state)
    for track, rule, shown in choice:
        tracks[track] = step(tracks[track], rule, shown)
    return tuple(tracks)


def _unbeaten(states: States) -> States:
    kept: list[tuple[Track, ...]] = []
    for state in sorted(states):  # whatever beats a state comes before it
        if not any(_beats(other, state) for other in kept):
            kept.append(state)
    return set(kept)


def _beats(one: tuple[Track, ...], other: tuple[Track, ...]) -> bool:
    return all(
        mine[0] <= theirs[0] and mine[1] <= theirs[1] and mine[-1] <= theirs[-1]
        for mine, theirs in zip(one, other, strict=True)
    )
