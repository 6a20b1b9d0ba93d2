"""What the rules are told of nurses: six queries, however many nurses and however many practices."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from django.db.models import Exists, Max, OuterRef

from teaching.models import Account, ClinicianDetails, Practice, SelfRating, SignOff
from teaching.record.prepared import read
from teaching.rules import competence_facts as facts
from teaching.rules.huddle_cover import skill_to_teach

DETAILS = ("clinician_id", "number", "name", "grade")
PRACTICE = (
    "id", "uid", "nurse_id", "assessor_id", "skill_version__skill", "skill_version__number", "setting", "levels", "at",
    "words", "takes_back_id",
)
SIGN_OFF = (
    "nurse_id", "assessor_id", "skill", "number", "kind", "practice__uid", "certificate", "valid_from", "valid_until",
    "reason", "recorded_at",
)
SELF_RATING = ("nurse_id", "skill", "number", "confidence", "at")


def nurses(keys: Sequence[int]) -> dict[int, facts.Nurse]:
    """All facts of each clinician (by key), whatever unit they come from: a skill is the nurse's own."""
    practices, sign_offs = read(Practice, PRACTICE, "nurse_id", keys), read(SignOff, SIGN_OFF, "nurse_id", keys)
    named = _named({*keys, *(row.assessor_id for row in (*practices, *sign_offs))})
    practised, signed = _practices(practices, named), _sign_offs(sign_offs, named)
    sure, taught = _self_ratings(keys), _last_taught(keys)
    return {
        key: facts.Nurse(
            key=str(key),
            name=named[key].name if key in named else "",
            grade=named[key].grade if key in named else "other",
            practices=tuple(practised[key]),
            sign_offs=tuple(signed[key]),
            self_ratings=tuple(sure[key]),
            taught=taught[key],
        )
        for key in keys
    }


def nurse(key: int) -> facts.Nurse:
    return nurses([key])[key]


def _named(keys: Iterable[int]) -> dict[int, Any]:
    rows = read(ClinicianDetails, DETAILS, "clinician_id", sorted(keys))
    return {row.clinician_id: row for row in sorted(rows, key=lambda row: row.number)}


def _practices(rows: Sequence[Any], named: dict[int, Any]) -> dict[int, list[facts.Practice]]:
    gone = {row.takes_back_id for row in rows if row.takes_back_id}
    found: dict[int, list[facts.Practice]] = defaultdict(list)
    for row in rows:
        if row.takes_back_id:
            continue
        found[row.nurse_id].append(
            facts.Practice(
                str(row.uid), row.skill_version__skill, row.skill_version__number, row.setting, row.levels, row.at,
                named[row.assessor_id].name, row.words, str(row.assessor_id), row.id in gone,
            )
        )
    return found


def _sign_offs(rows: Sequence[Any], named: dict[int, Any]) -> dict[int, list[facts.SignOff]]:
    found: dict[int, list[facts.SignOff]] = defaultdict(list)
    for row in rows:
        found[row.nurse_id].append(
            facts.SignOff(
                row.skill, row.number, row.valid_from, row.valid_until, row.kind, named[row.assessor_id].name,
                str(row.practice__uid or ""), row.certificate, row.reason, row.recorded_at,
            )
        )
    return found


def _self_ratings(keys: Sequence[int]) -> dict[int, list[facts.SelfRating]]:
    """The newest of each skill."""
    newest = {(row.nurse_id, row.skill): row for row in read(SelfRating, SELF_RATING, "nurse_id", keys)}
    found: dict[int, list[facts.SelfRating]] = defaultdict(list)
    for row in newest.values():
        found[row.nurse_id].append(facts.SelfRating(row.skill, row.confidence, row.at))
    return found


def _last_taught(keys: Sequence[int]) -> dict[int, dict[str, datetime]]:
    """When each skill was last used with a person: taught, or for a change, taught or done. Never who the person was.

    Only what still stands: an account that a later one of the same rater replaced or took back is left out.
    """
    later = Account.objects.filter(
        event=OuterRef("event"), rater=OuterRef("rater"), number__gt=OuterRef("number")
    ).exclude(kind="addendum")
    rows = (
        Account.objects.filter(rater__in=keys, role="taught", kind__in=("original", "correction"))
        .exclude(Exists(later))
        .values_list("rater", "event__kind", "event__procedure", "event__stoma__kind")
        .annotate(last=Max("began_at"))
    )
    found: dict[int, dict[str, datetime]] = defaultdict(dict)
    for rater, kind, procedure, stoma, last in rows:
        used = ["change"] if procedure == "change" and kind in ("teaching", "care") else []
        used += [skill_to_teach(stoma)] if kind == "teaching" else []
        for skill in used:
            found[rater][skill] = max(last, found[rater].get(skill, last))
    return found
