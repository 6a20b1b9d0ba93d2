"""A small simulator of finished stays, all made up: how fast people learn, who leaves first, two nurses who differ.

Case mix: 15,512 colostomy, 10,207 ileostomy, 1,930 urostomy (Schott 2022). Days to independence about lognormal with
median 7 (Goldblatt 2018). Levels climb with each try; measuring and cutting are the hardest (common practice).
"""

from datetime import date, timedelta
from random import Random

from teaching.record.entries import KitEntry, StayEntry, StomaEntry
from teaching.record.past_stays import PastSession, PastStay
from tests.bedside.ward import EMPTYING, URINE

KINDS = (("colostomy", 15_512), ("ileostomy", 10_207), ("urostomy", 1_930))
CHANGE = ("prep-kit", "off-peel", "measure", "cut", "shut-first", "centre", "press", "close")
HARD = {"measure": 1.5, "cut": 2.0, "close": 0.5}
LEVELS = ("01", "02", "03", "04", "05", "06")
DAY, HOUR = timedelta(days=1), timedelta(hours=1)


def made_up_stays(unit, nurses, count, now, seed=1, sessions=3, paired=0.1):
    """`count` stays that ended before `now`, by a seeded die; every tenth session or so rated by two."""
    dice = Random(seed)
    return [_stay(dice, unit, nurses, number, now, sessions, paired) for number in range(count)]


def _stay(dice, unit, nurses, number, now, sessions, paired):
    kind = dice.choices([name for name, _ in KINDS], [weight for _, weight in KINDS])[0]
    left = now - DAY - dice.random() * 700 * DAY
    surgery = left - max(3.0, dice.lognormvariate(2.1, 0.3)) * DAY
    pace = dice.gauss(1.0, 0.4)
    outlet = "tap" if kind == "urostomy" else "strip"
    return PastStay(
        entry=StayEntry(
            unit=unit, authority="made up", mrn=f"sim-{number}", family_name="Madeup", given_names=f"Nr {number}",
            born=date(1940 + dice.randrange(50), 1, 1), bed="old", surgery_at=surgery, opened_at=surgery - DAY,
        ),
        stoma=StomaEntry(kind=kind, formed_at=surgery),
        kit=KitEntry(outlet=outlet, interval_hours=72, happened_at=surgery),
        left_at=left,
        sessions=tuple(_sessions(dice, kind, nurses, surgery, left, sessions, pace, paired)),
    )  # fmt: skip


def _sessions(dice, kind, nurses, surgery, left, count, pace, paired):
    span = (left - surgery - DAY) / count
    for place in range(count):
        empties = place % 2 == 0
        codes = CHANGE if not empties else URINE if kind == "urostomy" else EMPTYING
        procedure = "change" if not empties else "urine" if kind == "urostomy" else "emptying"
        answers = tuple((code, _level(dice, place * pace + 3 - HARD.get(code, 0))) for code in codes)
        first, second = dice.sample(nurses, 2)
        beside = ()
        if dice.random() < paired:
            beside = tuple((code, _near(dice, level)) for code, level in answers)
        at = surgery + DAY + (place + 0.5 * dice.random()) * span
        yield PastSession(procedure, at, first, answers, second if beside else None, beside)


def _level(dice, skill):
    return LEVELS[min(5, max(0, round(dice.gauss(skill, 0.8))))]


def _near(dice, level):
    place = LEVELS.index(level)
    return LEVELS[min(5, max(0, place + dice.choice([0, 0, 0, 0, 1, -1])))]
