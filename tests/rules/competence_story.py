"""One nurse's way to a sign-off, written in days: day 0 is 13 May 2026, noon in London."""

from datetime import UTC, datetime, timedelta

from teaching.rules.competence import Standing, standing
from teaching.rules.competence_facts import Nurse, Practice, SignOff, Skill, SkillRow
from teaching.rules.policy import DEFAULT
from teaching.rules.reasons import words
from teaching.rules.ward import Ward

WARD = Ward("Europe/London")
NOON = datetime(2026, 5, 13, 11, tzinfo=UTC)
ROWS = ("off", "look", "fit", "close")
NEW_ROW = "read"


def skill(version=1, rows=ROWS, **more):
    told = {"practices": 3, "at_five": 2, "renewing": 1} | more
    return Skill(
        "change", "Do a change", version, tuple(SkillRow(row, row.capitalize()) for row in rows),
        settings=frozenset({"person", "simulation", "bench"}), grades=frozenset({"registered"}), **told,
    )  # fmt: skip


def day(number, hour=0):
    return NOON + timedelta(days=number, hours=hour)


def seen(number, level="5", where="person", version=1, rows=ROWS, taken_back=False, **differ):
    levels = dict.fromkeys(rows, level) | differ
    return Practice(f"p{number}", "change", version, where, levels, day(number), "Sorrel Vane", taken_back=taken_back)


def granted(number, until, from_=0, practice="", certificate=""):
    return SignOff("change", number, day(from_), until, "granted", "Sorrel Vane", practice, certificate)


def withdrawn(number, from_, why="two leaks after her changes"):
    return SignOff("change", number, day(from_), day(from_), "withdrawn", "Linden Brook", reason=why)


def stands(*facts, at=NOON, of=None, grade="registered", policy=DEFAULT, **more) -> Standing:
    practices = tuple(each for each in facts if isinstance(each, Practice))
    sign_offs = tuple(each for each in facts if isinstance(each, SignOff))
    nurse = Nurse("n", "Basil Thorne", grade, practices, sign_offs, **more)
    return standing(nurse, of or skill(), policy, at, WARD)


def required(one: Standing) -> list[str]:
    return [words(reason) for reason in one.required]
