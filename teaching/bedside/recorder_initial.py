"""What an account said, by the names of the recorder's fields: to show it again, or to correct it."""

from collections import Counter
from typing import Any

from teaching.bedside.asking import asked_of
from teaching.bedside.recorder_form import RecorderForm
from teaching.bedside.recorders import alone_name, part_of, recorder_of
from teaching.bedside.seen_fields import finding_in, said_of
from teaching.record.entries import RatingEntry
from teaching.rules.items import Checklist
from teaching.rules.vocabulary import NOT_RATED_CODES


def form_of(account, data=None, *, chart, policy, now) -> RecorderForm:
    """The recorder's form with what this account says, for its stay and the rows that applied when it began."""
    checklist, ratings = chart.checklist, list(account.ratings.select_related("learner"))
    form = RecorderForm(
        data, initial=said_in(account, checklist), recorder=recorder_of(account.event.procedure), stay=account.stay,
        chart=chart, policy=policy, now=now, at=account.began_at,
    )  # fmt: skip
    held = _held(ratings, main_of(ratings))
    form.carried = tuple(entry_of(one) for one in ratings if one not in held.values() or one.code not in form.rows)
    form.said_to_be_so = asked_of(
        chart, str(account.event.stoma.uid), account.began_at, _seen_then(account), policy,
        {one.code: one.answer for one in ratings},
    )  # fmt: skip
    return form


def _seen_then(account):
    finding = getattr(account, "finding", None)
    return finding_in(said_of(finding)) if finding else None


def said_in(account, checklist: Checklist) -> dict[str, Any]:
    """{field: value} for `RecorderForm(initial=...)`. `which` names the learner of most rows; who names the others."""
    ratings = list(account.ratings.select_related("learner"))
    main = main_of(ratings)
    said: dict[str, Any] = {
        "which": f"{account.event.stoma.uid}:{main}",
        "began_at": account.began_at,
        "minutes": _minutes(account),
        "place": account.place,
        "language": account.language,
        "interpreter": account.interpreter,
        "broken_off": account.ended_how == "broken-off",
    }
    hands = [one for one in ratings if not checklist.by_code[one.code].topic and one.answer not in NOT_RATED_CODES]
    said["practice"] = bool(hands) and all(one.practice for one in hands)
    held = _held(ratings, main)
    parts = _parts_of_others(held, checklist, main)
    said |= {f"part_who.{part}": whose for part, whose in parts.items()}
    for code, one in held.items():
        item = checklist.by_code[code]
        said |= _row(one, item, parts.get(part_of(item), main), said["practice"])
    finding = getattr(account, "finding", None)
    return said | (said_of(finding) if finding else {})


def _parts_of_others(held: dict[str, Any], checklist: Checklist, main: str) -> dict[str, str]:
    """{part: its learner} where a part was confirmed at once for somebody else."""
    whose: dict[str, set[str]] = {}
    for code, one in held.items():
        part = part_of(checklist.by_code[code])
        if one.entered_as == "phase" and part:
            whose.setdefault(part, set()).add(str(one.learner.uid))
    return {part: other for part, (other, *more) in whose.items() if other != main and not more}


def main_of(ratings) -> str:
    """The learner of most rows."""
    whose = Counter(str(one.learner.uid) for one in ratings)
    return whose.most_common(1)[0][0] if whose else ""


def _held(ratings, main: str) -> dict[str, Any]:
    """{code: the one rating of it that the form has a place for}: of a row two learners did, the main one's."""
    return {one.code: one for one in sorted(ratings, key=lambda one: str(one.learner.uid) == main)}


def entry_of(one) -> RatingEntry:
    """A stored rating as it was said."""
    return RatingEntry(
        learner=one.learner, code=one.code, answer=one.answer, practice=one.practice, reported=one.reported,
        reason=one.reason, aids=tuple(one.aids), entered_as=one.entered_as, note=one.note,
    )  # fmt: skip


def _minutes(account) -> str:
    return str(round((account.ended_at - account.began_at).total_seconds() / 60)) if account.ended_at else ""


def _row(one, item, usual: str, practice: bool) -> dict[str, Any]:
    """`usual` is whose row it is where nothing is said of it alone."""
    code, whose = one.code, str(one.learner.uid)
    said = {
        f"reason.{code}": one.reason,
        f"aids.{code}": one.aids,
        f"reported.{code}": one.reported,
        f"practised.{code}": one.practice and not practice,
        f"note.{code}": one.note,
        f"who.{code}": "" if whose == usual else whose,
    }
    if one.entered_as == "phase":
        return said | {alone_name(part_of(item)): True}
    return said | {f"ratings.{code}": one.answer}
