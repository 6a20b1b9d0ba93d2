"""What was shown of one procedure: alone and when and by whom seen, help that was needed, what was not rated."""

from collections.abc import Callable
from datetime import datetime

from teaching.rules.facts import Chart, Rating
from teaching.rules.handover.parts import Line
from teaching.rules.huddle import when
from teaching.rules.reasons import words
from teaching.rules.showings import ALONE, LOWER
from teaching.rules.standing import Standing
from teaching.rules.vocabulary import GRADES, LOWER_REASONS, NOT_RATED_CODES, UNAIDED

By = Callable[[Rating], str]  # when, and by whom it was seen

# The level buttons' own words, told of a nurse to a nurse.
HELP = {
    "05": "a nurse only set out before or cleared up after",
    "04": "a nurse had to cue, or steady with a touching hand",
    "03": "a nurse did less than half of the work",
    "02": "a nurse did half of the work or more",
    "01": "a nurse did it all, or two were needed",
    "wrong": "wrongly done, or wrongly left out",
}
NOT_RATED = {"07": "declined", "10": "no place for it, or nothing to do", "88": "too unwell, or not safe"}
TIMES = ("not", "once", "twice")
# What the line of a showing says by itself.
SAID_SO = (
    "once-more-another-time", "once-more-another-date", "alone-needed", "not-started", "not-attempted", "declined",
    "helped", "slipped", "judged-wrongly", "slipped-judging",
)  # fmt: skip


def steps(chart: Chart, rows: list[Standing], told: list[Rating], label: str, now: datetime) -> list[Line]:
    """The first line is the procedure as a whole, with who saw it last; then alone, helped (lower levels last), not
    rated, told, not yet. "Then" in those lines is that last time.
    """
    essential = [one for one in rows if one.row.essential]
    newest = max((one.last for one in rows if one.last), key=lambda each: each.at, default=None)
    seen = f". Last seen {_when_by(chart, newest, now)}" if newest else ""

    def by(rating: Rating) -> str:
        return "then" if newest and rating.event == newest.event else _when_by(chart, rating, now)

    lines = [Line(_whole(essential) + seen, label)]
    lines += _alone(rows, by)
    lines += _uncounted(rows, by)
    lines += _helped(rows, by)
    lines += _not_rated(rows, by)
    lines += _told(chart, told, by)
    wanting = [one for one in essential if not (one.held or one.last or one.evidence or one.may_look)]
    if wanting:
        lines.append(Line(f"not yet: {titles(wanting, essential)}", brief=False))
    return lines


def _whole(essential: list[Standing]) -> str:
    held = sum(one.held for one in essential)
    if not essential:
        return "no essential step"
    counted = f"{len(essential)} step" + ("" if len(essential) == 1 else "s")
    if held == len(essential):
        return f"independent, {'it is held' if held == 1 else f'all {counted} held'}"
    return f"{held} of {counted} held" if held else f"none of {counted} held yet"


def _alone(rows: list[Standing], by: By) -> list[Line]:
    """Rows that stand on the same showings, in the same state, are said together."""
    together: dict[tuple, list[Standing]] = {}
    for one in rows:
        if one.evidence and not _last_was_lower(one):
            shown = tuple((each.event, each.at, each.witness.name, each.practice) for each in one.evidence)
            judged = all(each.answer not in (UNAIDED, *HELP) for each in one.evidence)
            together.setdefault((shown, judged, _because(one)), []).append(one)
    return [
        Line(_alone_words(own, judged, because, rows, by), mark=own[0].evidence[-1].answer,
             practice=own[0].evidence[-1].practice)
        for (_, judged, because), own in together.items()
    ]  # fmt: skip


def _alone_words(own: list[Standing], judged: bool, because: str, rows: list[Standing], by: By) -> str:
    evidence = own[0].evidence
    verb = "judged rightly" if judged else "alone"
    seen = "; ".join(f"{by(each)}{' as practice' if each.practice else ''}" for each in evidence)
    more = ", one more needed" if any(each.code.startswith("once-more") for each in own[0].reasons) else ""
    said = f"{verb} {TIMES[len(evidence)]}{more} ({seen}): {titles(own, rows)}"
    return f"{said}. {because}" if because else said


def _because(one: Standing) -> str:
    """Why showings are not enough, where "one more" does not say it all; or that they hold for now only."""
    return " ".join(words(reason) for reason in one.reasons if reason.code not in SAID_SO)


def _last_was_lower(one: Standing) -> bool:
    return one.last is not None and one.last.answer in LOWER


def _uncounted(rows: list[Standing], by: By) -> list[Line]:
    """Shown alone, and it counts for nothing: practice where the row takes none, or before the stoma was re-sited."""
    together: dict[tuple, list[Standing]] = {}
    for one in rows:
        if one.last is not None and one.last.answer in ALONE and not one.evidence:
            together.setdefault((one.last.event, one.last.answer, one.last.practice, _because(one)), []).append(one)
    return [
        Line(
            f"alone{' as practice' if practice else ''}, {by(own[0].last)}, does not count: "
            f"{titles(own, rows)}{f'. {because}' if because else ''}",
            mark=answer, practice=practice,
        )
        for (_, answer, practice, because), own in together.items()
        if own[0].last
    ]  # fmt: skip


def _helped(rows: list[Standing], by: By) -> list[Line]:
    together: dict[tuple, list[Standing]] = {}
    for one in rows:
        if one.last is not None and one.last.answer in LOWER:
            key = (one.last.answer, one.last.event, one.last.reason, one.last.practice)
            together.setdefault(key, []).append(one)
    found = []
    for (answer, _, reason, practice), own in sorted(together.items(), key=lambda each: _most_alone_first(each[0][0])):
        why = f", {LOWER_REASONS[reason]}" if reason else ""
        last = own[0].last
        at = by(last) if last else ""
        code = f" ({answer})" if answer.isdigit() else ""
        said = f"{HELP[answer]}{code}{why}, {at}{' as practice' if practice else ''}: {titles(own)}"
        found.append(Line(said, mark=answer, practice=practice))
    return found


def _most_alone_first(answer: str) -> int:
    return tuple(HELP).index(answer)


def _not_rated(rows: list[Standing], by: By) -> list[Line]:
    together: dict[tuple, list[Standing]] = {}
    for one in rows:
        if one.last is not None and one.last.answer in NOT_RATED_CODES:
            together.setdefault((one.last.answer, one.last.event), []).append(one)
    return [
        Line(f"{NOT_RATED[answer]} ({answer}), {by(own[0].last)}: {titles(own, rows)}", mark=answer)
        for (answer, _), own in together.items()
        if own[0].last
    ]


def _told(chart: Chart, told: list[Rating], by: By) -> list[Line]:
    """The newest telling alone; what was told never counts."""
    if not told:
        return []
    newest = max(told, key=lambda one: one.at)
    own = [chart.checklist.by_code[one.code].title for one in told if one.event == newest.event]
    alone = all(one.answer in ALONE for one in told if one.event == newest.event)
    how = "told to be alone, not seen" if alone else "told, not seen"
    return [Line(f"{how}, {by(newest)}: {'; '.join(dict.fromkeys(own))}")]


def _when_by(chart: Chart, rating: Rating, now: datetime) -> str:
    """Such as "yesterday 18:10, a nurse"; a student's entry without a co-signature is named as one."""
    witness = rating.witness
    unsigned = " (student, not co-signed)" if witness.grade == "student" and not witness.cosigned_by else ""
    grade = f", {GRADES[witness.grade]}" if witness.grade == "stoma-nurse" else unsigned
    by = f" by {witness.name}{grade}" if witness.name else ", by whom is not known"
    return f"{when(rating.at, chart.ward, now)}{by}"


def titles(own: list[Standing], whole: list[Standing] | None = None) -> str:
    """The rows by title; "all of it" where they are the whole."""
    if whole is not None and len(own) == len(whole) and len(own) > 1:
        return "all of it"
    return "; ".join(one.row.item.title for one in own)

