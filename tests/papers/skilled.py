"""A made-up unit's nurses on 13 May 2026, with every kind of line a paper about skills can have."""

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from teaching.rules.competence_facts import Nurse, Practice, SelfRating, SignOff, Skill, SkillRow
from teaching.rules.lines import Policy
from teaching.rules.policy import DEFAULT
from teaching.rules.skill_history import History, Published, Written
from teaching.rules.ward import Ward

WARD = Ward("Europe/London")
NOW = datetime(2026, 5, 13, 12, 40, tzinfo=UTC)
FILE = Path(__file__).parents[2] / "fixtures" / "skills-1.json"
# Only the lines that a paper about skills leans on, so that no other line moves the version these papers print.
LEANS_ON = ("aims", "practices_with_person", "sign_off_lasts", "sign_off_longest", "sign_off_due_soon")
FIRST = Policy(tuple(line for line in DEFAULT.lines if line.name in LEANS_ON), ())
LONGER = Policy(
    tuple(replace(line, value=24) if line.name == "sign_off_lasts" else line for line in FIRST.lines), ())
POLICY = LONGER
NAMES = {"amber": "Amber Oakley", "sorrel": "Sorrel Vane", "linden": "Linden Brook"}


def _skills():
    for told in json.loads(FILE.read_text(encoding="utf-8"))["skills"]:
        yield Skill(
            told["skill"], told["title"]["en"], told["number"],
            tuple(SkillRow(row["code"], row["title"]["en"]) for row in told["rows"]),
            told["practices"], told["at_five"], told["renewing"], frozenset(told["settings"]),
            frozenset(told["grades"]),
        )  # fmt: skip


SKILLS = tuple(_skills())
CHANGE, BOWEL, UROSTOMY = SKILLS
OLD = Skill("change", CHANGE.title, 0, CHANGE.rows[:9], 2, 1, 1, CHANGE.settings, CHANGE.grades)


def ago(days):
    return NOW - timedelta(days=days)


def practice(days, skill=CHANGE, level="5", where="person", by="sorrel", taken_back=False, **rows):
    levels = dict.fromkeys((row.code for row in skill.rows), level)
    levels |= {code.replace("_", "-"): told for code, told in rows.items()}
    return Practice(
        f"{skill.code}-{days}", skill.code, skill.version, where, levels, ago(days), NAMES[by],
        "Mr Someone's skin was sore", by, taken_back,
    )  # fmt: skip


def granted(number, days, until, skill=CHANGE, by="sorrel", certificate="", basis=""):
    """Put on record a day after it begins."""
    return SignOff(
        skill.code, number, ago(days), NOW + timedelta(days=until), "granted", NAMES[by], basis, certificate,
        written_at=ago(days - 1),
    )  # fmt: skip


BASIL = Nurse(
    "3", "Basil Thorne", "registered",
    practices=(
        practice(520, OLD, "4"), practice(510, OLD), practice(40, where="simulation", dc_powder="X", dc_fit="4"),
        practice(20, level="4", dc_fit="5"), practice(15), practice(9), practice(5, taken_back=True),
        practice(12, BOWEL, "3", "simulation", by="amber", tb_helper="X", tb_hands="2"), practice(3, BOWEL, "4"),
    ),
    sign_offs=(
        granted(1, 509, -144, basis="change-510"),
        granted(2, 8, 722, basis="change-9"),
    ),
    self_ratings=(SelfRating("change", 5, ago(4)), SelfRating("teach-bowel", 2, ago(4))),
    taught={"change": ago(2)},
)  # fmt: skip
AMBER = Nurse(
    "1", "Amber Oakley", "registered",
    practices=(
        practice(430, UROSTOMY, by="linden"), practice(420, UROSTOMY, by="linden"),
        practice(410, UROSTOMY, by="linden"), practice(300, BOWEL), practice(290, BOWEL), practice(280, BOWEL),
        practice(20, BOWEL),
    ),
    sign_offs=(
        granted(1, 600, 40, by="linden", certificate="Made-up college, 2024"),
        granted(1, 279, 30, BOWEL), granted(2, 19, 711, BOWEL),
        granted(1, 400, 100, UROSTOMY),
        SignOff("teach-urostomy", 2, ago(30), ago(30), "withdrawn", NAMES["linden"], reason="two leaks after teaching"),
    ),
    taught={"change": ago(1), "teach-bowel": ago(1)},
)  # fmt: skip
ASHBY = Nurse("5", "Ashby Crane-Featherstonehaugh-Nightingale", "assistant", practices=(practice(6, level="3"),))
EDDA = Nurse("7", "Edda Marsh", "other")
NURSES = (BASIL, AMBER, ASHBY, EDDA)
HISTORY = History(
    skills=(Published(OLD, ago(900)), *(Published(skill, ago(120)) for skill in SKILLS[:1]),
            *(Published(skill, ago(700)) for skill in SKILLS[1:])),
    policies=((ago(2000), FIRST), (ago(60), LONGER)),
    written={
        each.key: Written(each.at + timedelta(minutes=5), ago(4) if each.taken_back else None)
        for nurse in NURSES for each in nurse.practices
    },
    signed_by={("3", "change", 1): 0, ("3", "change", 2): 1, ("1", "change", 1): None, ("1", "teach-bowel", 1): 1,
               ("1", "teach-bowel", 2): 1, ("1", "teach-urostomy", 1): 1},
)  # fmt: skip
