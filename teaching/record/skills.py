"""Publishing a version of a nurse's skill, reading the one in force, and how sure nurses feel of theirs."""

import json
from collections.abc import Mapping
from datetime import datetime
from functools import lru_cache
from hashlib import sha256
from typing import Any

from django.db.models import Case, F, OuterRef, Q, Subquery, Value, When
from django.utils import timezone

from teaching.models import Clinician, ClinicianDetails, ObservationAsk, SelfRating, SkillVersion, Unit
from teaching.models.skills import SELF_RATING_LEAST, SELF_RATING_MOST
from teaching.models.staff import SKILLS
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.prepared import read_all
from teaching.record.refusals import refuse
from teaching.record.staff import sign_offs_of, valid_among
from teaching.record.writing import done, next_number, one_at_a_time, writing
from teaching.rules.competence_facts import Skill, SkillRow
from teaching.rules.vocabulary import GRADES, PRACTICE_SETTINGS

NUMBERS = ("practices", "at_five", "renewing")
MOST = 20  # practices before a sign-off; more is surely a slip of the keyboard
WITH_A_PERSON = "person"


def publish_skills(*, actor: Actor, content: object) -> list[SkillVersion]:
    """Every skill of a file such as fixtures/skills-1.json, all or none."""
    skills = content.get("skills") if isinstance(content, Mapping) else None
    if not isinstance(skills, list) or not all(isinstance(each, Mapping) for each in skills) or not skills:
        refuse("skills", "A file of skills has a list named skills; see fixtures/skills-1.json.")
    with writing():
        return [publish_skill(actor=actor, content=each) for each in skills]


def publish_skill(*, actor: Actor, content: Mapping[str, Any]) -> SkillVersion:
    """One skill as its file has it. The same content again gives the version that stands; it is never edited."""
    _check(content)
    digest = sha256(json.dumps(content, sort_keys=True, ensure_ascii=False).encode()).hexdigest()
    with writing():
        stands = SkillVersion.objects.filter(skill=content["skill"], number=content["number"]).first()
        if stands and stands.sha256 == digest:
            return stands
        if stands:
            refuse("number", f"Version {content['number']} is published and never changes; use the next number.")
        made = SkillVersion.objects.create(
            skill=content["skill"], number=content["number"], sha256=digest, content=dict(content),
            published_at=timezone.now(), by=actor.clinician,
        )
        done(actor, "publish_skill", made)
    return made


def _check(content: Mapping[str, Any]) -> None:
    faults = Faults()
    faults.word("skill", content.get("skill", ""), SKILLS)
    for name in ("number", *NUMBERS):
        value = content.get(name)
        if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= MOST:
            faults.add(name, f"{name} must be a whole number from 1 to {MOST}.")
    if not faults and content["at_five"] > content["practices"]:
        faults.add("at_five", "More practices at 5 are asked for than practices in all; lower one of the two.")
    for name, known in (("settings", PRACTICE_SETTINGS), ("grades", GRADES)):
        if not _listed(content, name):
            faults.add(name, f"Name at least one of: {', '.join(known)}.")
        for each in _listed(content, name):
            faults.word(name, each, known)
    if WITH_A_PERSON not in _listed(content, "settings"):
        faults.add("settings", "Practices with a person must count: simulation alone is never enough.")
    _check_rows(faults, content)
    faults.stop()


def _check_rows(faults: Faults, content: Mapping[str, Any]) -> None:
    rows = [row if isinstance(row, Mapping) else {} for row in _listed(content, "rows")]
    if not rows or not _text(content.get("title")):
        faults.add("rows", "A skill has a title in some language and rows to observe; add what is missing.")
    for row in rows:
        if not isinstance(row.get("code"), str) or not _text(row.get("title")):
            faults.add("rows", f"{row.get('code') or 'A row'} needs a code and a title in some language.")
    codes = [str(row.get("code")) for row in rows]
    if len(set(codes)) < len(codes):
        faults.add("rows", "Two rows have the same code; give each its own.")


def _listed(content: Mapping[str, Any], name: str) -> list[Any]:
    found = content.get(name)
    return found if isinstance(found, list) else []


def _text(said: Any) -> bool:
    return isinstance(said, Mapping) and bool(said) and all(isinstance(each, str) and each for each in said.values())


def skills_in_force() -> tuple[Skill, ...]:
    """The newest version of each skill, in the order of SKILLS. One query."""
    newest = {row.skill: row for row in sorted(_versions(), key=lambda row: row.number)}
    return tuple(_read(str(newest[code].uid), newest[code].id) for code in SKILLS if code in newest)


def version_in_force(skill: str) -> SkillVersion:
    """The row of the newest version. Raises Refused where none is published."""
    newest = SkillVersion.objects.filter(skill=skill).order_by("-number").first()
    if newest is None:
        refuse("skill", "No version of this skill is published here yet. Ask the unit lead to have it published.")
    return newest


def skill_of(version: SkillVersion) -> Skill:
    """A version as the rules see it."""
    return _read(str(version.uid), version.pk)


def _versions() -> list[Any]:
    return read_all(SkillVersion, ("id", "uid", "skill", "number"))


@lru_cache(maxsize=32)
def _read(uid: str, key: int) -> Skill:
    """A published version never changes, so it is read once."""
    version = SkillVersion.objects.get(pk=key, uid=uid)
    told = version.content
    return Skill(
        code=version.skill,
        title=_said(told["title"]),
        version=version.number,
        rows=tuple(SkillRow(row["code"], _said(row["title"])) for row in told["rows"]),
        settings=frozenset(told["settings"]),
        grades=frozenset(told["grades"]),
        **{name: told[name] for name in NUMBERS},
    )


def _said(text: Mapping[str, str], language: str = "en") -> str:
    return text.get(language) or next(iter(text.values()))


def rate_oneself(*, actor: Actor, skill: str, confidence: int) -> SelfRating:
    """How sure one feels, 1 to 6. Kept apart from what was seen; no rule reads it."""
    nurse, faults = somebody(actor), Faults()
    faults.word("skill", skill, SKILLS)
    if not isinstance(confidence, int) or not SELF_RATING_LEAST <= confidence <= SELF_RATING_MOST:
        faults.add("confidence", f"Tap a number from {SELF_RATING_LEAST} to {SELF_RATING_MOST}.")
    faults.stop()
    with writing():
        one_at_a_time("self rating", str(nurse.uid), skill)
        made = SelfRating.objects.create(
            nurse=nurse, skill=skill, number=next_number(SelfRating, nurse=nurse, skill=skill),
            confidence=confidence, at=timezone.now(), by=nurse,
        )
        done(actor, "rate_oneself", made)
    return made


def ask_to_be_observed(
    *, actor: Actor, unit: Unit, skill: str, paired_at: Any = None, bed: str = ""
) -> ObservationAsk:
    """Ask, or ask for one due change: its moment and bed. Asking again replaces the last ask."""
    faults, nurse = Faults(), somebody(actor)
    faults.word("skill", skill, SKILLS)
    _check_pairing(faults, paired_at, bed)
    faults.stop()
    state, told = ("paired", {"paired_at": paired_at, "bed": bed}) if paired_at else ("asked", {})
    with writing():
        one_at_a_time("ask", str(nurse.uid), str(unit.uid), skill)
        return _ask(actor, "ask_to_be_observed", nurse, unit, skill, state, **told)


def pair_ask(
    *, actor: Actor, nurse: Clinician, unit: Unit, skill: str, paired_at: datetime, bed: str = ""
) -> ObservationAsk:
    """Somebody who holds the skill says at which due change they observe. The ask stays the nurse's; `by` says whose
    word this is. Asking anew, or taking it back, replaces it.
    """
    assessor, faults = somebody(actor), Faults()
    faults.word("skill", skill, SKILLS)
    _check_pairing(faults, paired_at, bed)
    faults.stop()
    if assessor == nurse:
        faults.add("nurse", "This is your own ask. Choose the change on your own page.")
    elif valid_among(sign_offs_of(assessor), (skill,), paired_at) is None:
        faults.add("", f"Only somebody signed off then observes it; you are not ({SKILLS[skill]}). Ask a holder.")
    faults.stop()
    with writing():
        one_at_a_time("ask", str(nurse.uid), str(unit.uid), skill)
        if open_ask(nurse.pk, unit, skill) is None:
            refuse("", "This nurse does not ask any more: it was taken back, or a practice has answered it.")
        return _ask(actor, "pair_ask", nurse, unit, skill, "paired", paired_at=paired_at, bed=bed)


def _check_pairing(faults: Faults, paired_at: datetime | None, bed: str) -> None:
    faults.text("bed", bed, 20)
    if paired_at is not None and paired_at < timezone.now():
        faults.add("paired_at", "This change is past. Choose one that is still to come.")


def take_back_ask(*, actor: Actor, unit: Unit, skill: str) -> ObservationAsk:
    """Not now after all."""
    nurse = somebody(actor)
    with writing():
        one_at_a_time("ask", str(nurse.uid), str(unit.uid), skill)
        if open_ask(nurse.pk, unit, skill) is None:
            refuse("skill", "You have not asked to be observed for this, so there is nothing to take back.")
        return _ask(actor, "take_back_ask", nurse, unit, skill, "withdrawn")


def open_ask(nurse: int, unit: Unit, skill: str) -> ObservationAsk | None:
    """The newest ask of a nurse (by key), if it still stands."""
    newest = ObservationAsk.objects.filter(nurse=nurse, unit=unit, skill=skill).order_by("-number").first()
    return newest if newest and newest.state in ("asked", "paired") else None


def asks_on(unit: Unit, nurse: int | None = None) -> list[Any]:
    """The asks that still stand on a unit, each nurse's newest of each skill; of one nurse (by key) where named.

    `paired_by` is the name of whoever else paired it with a change, "" where that was the nurse.
    """
    names = ClinicianDetails.objects.filter(clinician=OuterRef("by")).order_by("-number").values("name")[:1]
    rows = ObservationAsk.objects.filter(unit=unit, **({"nurse": nurse} if nurse else {}))
    other = When(~Q(by=F("nurse")), then=Subquery(names))
    told = rows.select_related("nurse").order_by("number").annotate(paired_by=Case(other, default=Value("")))
    newest = {(row.nurse_id, row.skill): row for row in told}
    return [row for row in newest.values() if row.state in ("asked", "paired")]


def ask_seen(asked: ObservationAsk, assessor: Clinician) -> ObservationAsk:
    """An ask answered by an observed practice; part of that verb's transaction and trail line."""
    return ObservationAsk.objects.create(
        nurse=asked.nurse, skill=asked.skill, unit=asked.unit, number=asked.number + 1, state="seen", by=assessor
    )


def _ask(
    actor: Actor, verb: str, nurse: Clinician, unit: Unit, skill: str, state: str, **more: Any
) -> ObservationAsk:
    made = ObservationAsk.objects.create(
        nurse=nurse, skill=skill, unit=unit, state=state, by=somebody(actor),
        number=next_number(ObservationAsk, nurse=nurse, skill=skill, unit=unit), **more,
    )
    done(actor, verb, made, unit=unit)
    return made
