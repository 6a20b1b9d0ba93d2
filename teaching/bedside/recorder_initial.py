"""What an account said, by the names of the recorder's fields: to show it again, or to correct it."""

from collections import Counter
from typing import Any

from teaching.bedside.recorders import alone_name, part_of
from teaching.bedside.seen_fields import said_of
from teaching.rules.items import Checklist
from teaching.rules.vocabulary import NOT_RATED_CODES


def said_in(account, checklist: Checklist) -> dict[str, Any]:
    """{field: value} for `RecorderForm(initial=...)`. `which` names the learner of most rows; who names the others."""
    ratings = list(account.ratings.select_related("learner"))
    whose = Counter(str(one.learner.uid) for one in ratings)
    main = whose.most_common(1)[0][0] if whose else ""
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
    for one in ratings:
        said |= _row(one, checklist.by_code[one.code], main, said["practice"])
    finding = getattr(account, "finding", None)
    return said | (said_of(finding) if finding else {})


def _minutes(account) -> str:
    return str(round((account.ended_at - account.began_at).total_seconds() / 60)) if account.ended_at else ""


def _row(one, item, main: str, practice: bool) -> dict[str, Any]:
    code, whose = one.code, str(one.learner.uid)
    said = {
        f"reason.{code}": one.reason,
        f"aids.{code}": one.aids,
        f"reported.{code}": one.reported,
        f"practised.{code}": one.practice and not practice,
        f"note.{code}": one.note,
        f"who.{code}": "" if whose == main else whose,
    }
    if one.entered_as == "phase":
        return said | {alone_name(part_of(item)): True}
    return said | {f"ratings.{code}": one.answer}
