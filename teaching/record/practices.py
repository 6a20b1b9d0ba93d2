"""Observed practices: recorded beside the nurse by a holder of the skill, and taken back if entered in error."""

from collections.abc import Mapping
from datetime import datetime

from django.utils import timezone

from teaching.models import Clinician, Practice, Unit
from teaching.models.staff import SKILLS
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.refusals import refuse
from teaching.record.skills import ask_seen, open_ask, skill_of, version_in_force
from teaching.record.staff import sign_offs_of, valid_among
from teaching.record.writing import done, next_number, one_at_a_time, writing
from teaching.rules.competence_facts import NOT_OBSERVED, Skill
from teaching.rules.vocabulary import BONDY

LONGEST_WORDS = 500


def record_practice(
    *,
    actor: Actor,
    nurse: Clinician,
    skill: str,
    unit: Unit,
    setting: str,
    levels: Mapping[str, str],
    at: datetime,
    words: str = "",
) -> Practice:
    """What was seen of every row of the version in force. The assessor held the skill then, and is never the nurse.

    `levels` is {row: "1".."5", or "X" not observed}, each row answered. An ask to be observed is closed by it.
    """
    assessor, now, faults = somebody(actor), timezone.now(), Faults()
    faults.word("skill", skill, SKILLS)
    faults.stop()
    version = version_in_force(skill)
    told = skill_of(version)
    faults.word("setting", setting, sorted(told.settings))
    faults.text("words", words, LONGEST_WORDS)
    if faults.moment("at", at, now):
        _check_assessor(faults, assessor, nurse, skill, at)
    _check_levels(faults, told, levels)
    faults.stop()
    with writing():
        one_at_a_time("practice", str(nurse.uid), skill)
        made = Practice.objects.create(
            nurse=nurse, assessor=assessor, skill_version=version, unit=unit, setting=setting,
            levels=dict(levels), at=at, words=words.strip(), by=assessor,
            number=next_number(Practice, nurse=nurse, skill_version=version),
        )
        one_at_a_time("ask", str(nurse.uid), str(unit.uid), skill)
        asked = open_ask(nurse.pk, unit, skill)
        if asked:
            ask_seen(asked, assessor)
        done(actor, "record_practice", made, unit=unit)
    return made


def take_back_practice(*, actor: Actor, practice: Practice, words: str) -> Practice:
    """Entered in error: it counts no more, and stays to be read. Only whoever recorded it takes it back."""
    assessor, faults = somebody(actor), Faults()
    faults.text("words", words, LONGEST_WORDS, "Why it is taken back")
    if practice.assessor_id != assessor.pk:
        faults.add("", "Only whoever recorded a practice takes it back. Ask them.")
    if practice.takes_back_id:
        faults.add("practice", "This entry takes another back; record the practice again if it was right.")
    faults.stop()
    with writing():
        one_at_a_time("practice", str(practice.nurse.uid), practice.skill_version.skill)
        if Practice.objects.filter(takes_back=practice).exists():
            refuse("practice", "This practice is taken back already.")
        made = Practice.objects.create(
            nurse=practice.nurse, assessor=assessor, skill_version=practice.skill_version, unit=practice.unit,
            setting=practice.setting, at=timezone.now(), words=words.strip(), takes_back=practice, by=assessor,
            number=next_number(Practice, nurse=practice.nurse, skill_version=practice.skill_version),
        )
        done(actor, "take_back_practice", made, unit=practice.unit)
    return made


def _check_assessor(faults: Faults, assessor: Clinician, nurse: Clinician, skill: str, at: datetime) -> None:
    if assessor == nurse:
        faults.add("nurse", "Nobody observes themselves. Ask a colleague who holds the skill.")
    elif valid_among(sign_offs_of(assessor), (skill,), at) is None:
        faults.add("", f"Only somebody signed off then observes it; you were not ({SKILLS[skill]}). Ask a holder.")


def _check_levels(faults: Faults, skill: Skill, levels: Mapping[str, str]) -> None:
    """Each fault stands beside its own row."""
    known = {row.code: row.title for row in skill.rows}
    for code in levels:
        if code not in known:
            faults.add(code, f"{code} is not a row of version {skill.version}; open the page anew and record again.")
    for code, title in known.items():
        if code not in levels:
            faults.add(code, f"{title}: tap what you saw, or X where you did not see it.")
        elif levels[code] not in BONDY:
            faults.word(code, levels[code], BONDY)
    if set(levels.values()) == {NOT_OBSERVED}:
        faults.add("", "Nothing was observed, so there is nothing to store.")
