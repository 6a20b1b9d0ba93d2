"""Whether one row may be rated here, and whether the answer fits the row."""

from collections.abc import Mapping

from teaching.record.checking import Faults
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.rules import vocabulary as words
from teaching.rules.checklist import Row, applicable, kit_at
from teaching.rules.facts import Chart, Item

GOOD = (words.UNAIDED, "right", "not_needed")


def answers_for(item: Item) -> tuple[str, ...]:
    """A topic's answers, a judgement's, or the levels of help; the not-rated codes always."""
    own = words.TOPIC_CODES if item.topic else words.DECISION_CODES if item.decision else words.LEVEL_CODES
    return own + words.NOT_RATED_CODES


def check_answer(faults: Faults, field: str, item: Item, rating: RatingEntry) -> None:
    allowed = answers_for(item)
    kind = "topic" if item.topic else "decision" if item.decision else "step"
    if rating.answer == words.NEVER_OFFERED:
        faults.add(field, "09 is never stored: leave out a row that does not apply.")
    elif rating.answer not in words.STORED_ANSWERS:
        faults.add(field, f"{rating.answer!r} is not an answer; choose one of: {', '.join(allowed)}.")
    elif rating.answer not in allowed:
        said = words.ANSWERS[rating.answer].words
        faults.add(field, f'"{said}" is no answer for a {kind}; choose one of: {", ".join(allowed)}.')
    attempted = rating.answer not in words.NOT_RATED_CODES
    if rating.reported and (item.topic or not attempted):
        faults.add(field, "Reported goes with the level of help that was told. Leave it out here.")
    if rating.reported and rating.practice:
        faults.add(field, "Practice is seen, never reported. Leave one of the two out.")
    if rating.practice and item.topic:
        faults.add(field, "A topic is explained in words; practice does not fit it. Leave it out.")
    faults.word(field, rating.reason, words.LOWER_REASONS, blank=True)
    if rating.reason and (item.topic or not attempted or rating.answer in GOOD):
        faults.add(field, "A reason explains a lower level. Leave it out here, or correct the level.")
    for aid in rating.aids:
        faults.word(field, aid, words.AIDS)
    faults.word(field, rating.entered_as, words.ENTERED_AS)
    faults.text(field, rating.note, 300)


def check_row(
    faults: Faults, field: str, chart: Chart, entry: SessionEntry, item: Item, rows: Mapping[str, Row]
) -> None:
    """The row is of this procedure (a topic fits any session) and among the `rows` this stoma had then."""
    if item.procedure != entry.procedure and not item.topic:
        there, here = words.PROCEDURES[item.procedure], words.PROCEDURES[entry.procedure]
        faults.add(field, f"This row belongs to {there.lower()}, not to {here.lower()}. Record a session of its own.")
        return
    stoma = str(entry.stoma.uid)
    row = rows.get(item.code)
    if row is None:
        others = [
            each.label for each in chart.stomas
            if each.key != stoma and item.code in {row.code for row in applicable(chart, each.key, entry.began_at)}
        ]
        if others:
            faults.add(field, f"{_why_not(chart, stoma, item, entry)} It is one of the other stoma ({others[0]}).")
        else:
            faults.add(field, f"{_why_not(chart, stoma, item, entry)} Leave it out, or write down the kit.")
    elif not (row.rated or item.topic):
        faults.add(field, "This row is a prompt here and is not rated. Leave it out.")


def _why_not(chart: Chart, stoma: str, item: Item, entry: SessionEntry) -> str:
    kit = kit_at(chart, stoma, entry.began_at)
    if kit and kit.pieces == "one" and ("two-piece",) in item.applies:
        return "A one-piece pouch has nothing to join."
    return "This row does not apply to this stoma with the kit it wore then."
