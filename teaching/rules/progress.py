"""How far a procedure has come, where the state of its lowest row alone would say too little."""

from teaching.rules.assess import Assessment, Conclusion
from teaching.rules.standing import Standing

UNSEEN = "not started"


def begun_words(assessment: Assessment, one: Conclusion) -> str:
    """Such as "begun, 9 of 10 steps seen, 4 held"; "" where nothing is begun, or every row has been seen.

    One row that nobody has rated yet does not make a procedure "not started", and is no zero either.
    """
    seen = one.essential - _unseen(assessment, one)
    if not one.begun or seen == one.essential:
        return ""
    topics = one.procedure == "topics"
    what = ("topic" if topics else "step") + ("" if one.essential == 1 else "s")
    held = f", {one.held} {'explained' if topics else 'held'}" if one.held else ""
    if not seen:
        return f"begun, none of {one.essential} {what} {'told' if topics else 'seen'} yet"
    return f"begun, {seen} of {one.essential} {what} {'talked about' if topics else 'seen'}{held}"


def _unseen(assessment: Assessment, one: Conclusion) -> int:
    """Its essential rows of which nothing was seen. Looking is not asked where an agreed helper may look."""
    looked_at = {(row.stoma, row.code) for row in assessment.standings if row.may_look}
    return sum(
        row.state == UNSEEN and row.row.essential and (row.stoma, row.code) not in looked_at
        for row in assessment.standings
        if _of(row, one)
    )


def _of(row: Standing, one: Conclusion) -> bool:
    return (row.stoma, row.learner, row.row.item.procedure) == (one.stoma, one.learner, one.procedure)
