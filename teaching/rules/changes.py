"""R5: who does the first change after leaving, and who looks at it."""

from teaching.rules.facts import Visit
from teaching.rules.hands import Hands, Situation, covered
from teaching.rules.holding import NO
from teaching.rules.in_place import accepted


def lacking_at_change(
    situation: Situation, stoma: str, hands: tuple[Hands, ...], nursing: bool, best: bool
) -> set[str]:
    """"change" where nobody does it, "look" where nobody looks at it.

    Whoever is there in one same hour of the day before it is due may share the rows of it. The person counts
    once they have explained what they must know; a helper at a set time need not.
    """
    if nursing and change_visits(situation, stoma, best):
        return set()
    doing = looking = change_window(situation, stoma)
    for code in situation.change_rows(stoma):
        doing &= covered((hand, hand.skill.change.get(code, NO)) for hand in hands if hand.skill.knows or hand.helper)
    for code in situation.look_rows(stoma):
        looking &= covered((hand, hand.skill.looks.get(code, NO)) for hand in hands)
    found = set() if doing else {"change"}
    together = doing & looking if doing else looking
    if not together and not (nursing and look_visits(situation, stoma, best)):
        found.add("look")
    return found


def change_window(situation: Situation, stoma: str) -> int:
    """The hours of the day up to the first change due, from leaving on; all hours where that is not known."""
    due, span = situation.dues[stoma], situation.span
    if due is None:
        return span.full
    return span.between(max(span.begins, due - situation.policy.change_window), due)


def change_visits(situation: Situation, stoma: str, best: bool = False) -> list[Visit]:
    """Accepted, for a change, from leaving on, at least the margin before it is due.

    At best a due time that is not known is one that the visit comes in time for.
    """
    due = situation.dues[stoma]
    if due is None:
        return [visit for visit in _accepted(situation, stoma) if visit.for_change] if best else []
    last = due - situation.policy.visit_margin
    return [visit for visit in _accepted(situation, stoma) if visit.for_change and visit.at <= last]


def look_visits(situation: Situation, stoma: str, best: bool = False) -> list[Visit]:
    """Accepted, of any kind, from leaving to the change due: a nurse who comes looks."""
    due = situation.dues[stoma]
    if due is None:
        return _accepted(situation, stoma) if best else []
    return [visit for visit in _accepted(situation, stoma) if visit.at <= due]


def _accepted(situation: Situation, stoma: str) -> list[Visit]:
    return accepted(situation.chart, situation.leaving or situation.now, stoma)
