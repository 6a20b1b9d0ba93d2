"""Independence of a learner in a row, on a stoma (I1-I17): where they stand, on what evidence, and what is wanting.

Two unaided showings on separate occasions since the last lower rating, one confirmed by someone entitled to,
the newest in date, nothing asked since that was not shown again.
"""

from datetime import datetime, timedelta

from teaching.rules.checklist import Row
from teaching.rules.facts import Chart, Rating
from teaching.rules.floors import Floor, floor
from teaching.rules.lines import Policy
from teaching.rules.looking import may_look, wanting_to_look
from teaching.rules.occasions import streak
from teaching.rules.reasons import Reason
from teaching.rules.scene import Scene, set_scene
from teaching.rules.showings import ALONE_ONCE_SET_OUT, Run, last_entry, run_of
from teaching.rules.standing import GAP, MISSING, Standing, soonest
from teaching.rules.topics import UNKNOWN, topic
from teaching.rules.vocabulary import ANSWERS, BODY_EVENTS, SET_UP_ONLY

STATE_OF = {
    "showing": "learning",
    "occasion": "shown once",
    "real": "shown once",
    "confirm": "shown, not yet confirmed",
    "ask": "show again",
    "date": "show again",
}


def independence(chart: Chart, policy: Policy, now: datetime, stoma: str, learner: str, row: Row) -> Standing:
    """One row. For all rows of a learner set the scene once and call `stand` for each."""
    return stand(set_scene(chart, policy, now, stoma, learner), row)


def stand(scene: Scene, row: Row) -> Standing:
    """Where the learner of this scene stands in a row, at the scene's moment."""
    if row.item.topic:
        return topic(scene, row)
    run = run_of(scene, row.item)
    first = floor(scene, row.item, run)
    second = first
    if not first.held and any(rating.answer == SET_UP_ONLY for rating in scene.seen(row.item.code)):
        second = floor(scene, row.item, run_of(scene, row.item, ALONE_ONCE_SET_OUT))
    relied_on = not scene.meanwhile
    held = first.held and relied_on
    bounds = [judged.until for judged in (first, second) if judged.until and judged.until > scene.now]
    return Standing(
        stoma=scene.stoma.key,
        learner=scene.learner.key,
        row=row,
        state=_state(scene, row, first, held),
        evidence=first.evidence,
        second_floor=second.held and relied_on,
        provisional=held and first.provisional,
        may_look=may_look(scene, row.item),
        lack="" if held else _lack(scene, row, first),
        last=last_entry(scene, row.item),
        reasons=_reasons(scene, row, first, second),
        holds_until=soonest(scene.next_fact, *bounds),
    )


def _state(scene: Scene, row: Row, first: Floor, held: bool) -> str:
    if held:
        never_needed = all(rating.answer == "not_needed" for rating in first.evidence)
        return "not needed" if never_needed else "independent"
    if first.held:
        return "show again"
    if first.missing != "showing":
        return STATE_OF[first.missing]
    if first.run.ended and first.run.before:
        return "slipped"
    return "learning" if first.run.ended or first.run.asked_at or first.run.showings else "not started"


def _lack(scene: Scene, row: Row, first: Floor) -> str:
    """I12 and I14: out of date, or never more than "nothing to do" and "too unwell", is not known, not proved."""
    if first.missing == "date" and not scene.meanwhile:
        return MISSING
    own = scene.seen(row.item.code)
    return MISSING if own and all(rating.answer in UNKNOWN for rating in own) else GAP


def _reasons(scene: Scene, row: Row, first: Floor, second: Floor) -> tuple[Reason, ...]:
    found = [Reason("while", state=BODY_EVENTS[event.code]) for event in scene.meanwhile]
    if not first.held:
        found += _wanting(scene, row, first)
        if second.held:
            found.append(Reason("helper-sets-out"))
    elif first.provisional:
        found.append(Reason("provisional"))
    if may_look(scene, row.item) and not first.held:
        found.insert(0, Reason("may-look"))
    elif row.item.looking and not first.held:
        found += wanting_to_look(scene, row.item)
    return tuple(found)


def _wanting(scene: Scene, row: Row, first: Floor) -> list[Reason]:
    """What is still needed, the most telling first."""
    item, run = row.item, first.run
    newest = scene.local(run.newest.at) if run.newest else None
    if first.missing == "date":
        return [Reason("out-of-date", at=newest)]
    if first.missing == "ask" and first.ask:
        return [first.ask.reason]
    if first.missing == "confirm":
        plain = item.procedure != "change" or item.code == "close"
        return [Reason("confirm" if plain else "confirm-change")]
    if first.missing == "real":
        book = scene.practice_may_stand(item) and not scene.stool_call_booked
        return [Reason("real-needed"), *([Reason("book-stool-call")] if book else [])]
    if first.missing == "occasion":
        return [_once_more(scene, item.procedure, newest)]
    return _nothing_shown(scene, row, run)


def _once_more(scene: Scene, procedure: str, newest: datetime | None) -> Reason:
    if procedure in ("change", "meeting"):
        return Reason("once-more-another-date", at=newest)
    return Reason("once-more-another-time", at=newest, hours=scene.policy.spacing // timedelta(hours=1))


def _nothing_shown(scene: Scene, row: Row, run: Run) -> list[Reason]:
    needed = Reason("alone-needed", count=streak(row.item, scene.policy))
    if run.showings:
        return [Reason("practice-not-counted"), needed]
    if run.ended:
        return [_helped(scene, run.ended, run.before), needed]
    if run.asked_at:
        return [Reason("helped", at=scene.local(run.asked_at[-1].at), answer=run.asked_at[-1].answer), needed]
    last = last_entry(scene, row.item)
    if scene.begins_again and "re-sited" in row.item.reopened_by and last:
        return [Reason("re-sited", at=scene.local(scene.begins_again)), needed]
    if last is None:
        return [Reason("not-started"), needed]
    if last.answer == "07":
        return [Reason("declined"), needed]
    return [Reason("not-attempted", answer=ANSWERS[last.answer].words.lower()), needed]


def _helped(scene: Scene, rating: Rating, before: bool) -> Reason:
    at = scene.local(rating.at)
    if rating.answer == "wrong":
        return Reason("slipped-judging" if before else "judged-wrongly", at=at)
    if rating.answer == SET_UP_ONLY and not before:
        return Reason("set-up-only", at=at)
    return Reason("slipped" if before else "helped", at=at, answer=rating.answer)

