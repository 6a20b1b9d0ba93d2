"""Forty made-up people who left long ago, by a seeded die: what a unit's own figures are worked out from.

Kinds as often as in Schott 2022 (15,512 colostomies, 10,207 ileostomies, 1,930 urostomies). Everything else is
invented: levels climb from session to session, measuring and cutting last; two nurses now and then rate the same
session and differ by a step at most.
"""

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from random import Random

from teaching.models import Stay, Unit
from teaching.record.actor import Actor
from teaching.record.arrangements import make_arrangement
from teaching.record.entries import KitEntry, StayEntry, StomaEntry
from teaching.record.past_stays import PastSession, PastStay, record_past_stays
from teaching.rules.vocabulary import LEVEL_CODES

HOW_MANY = 40
SEED = 21
KINDS = {"colostomy": 15_512, "ileostomy": 10_207, "urostomy": 1_930}
EMPTYING = {"emptying": ("em-when", "em-open", "em-wipe", "em-close", "em-hands"),
            "urine": ("ue-when", "ue-open", "ue-shut", "ue-look", "ue-hands")}
CHANGE = ("prep-kit", "prep-hands", "off-peel", "clean-dry", "look-stoma", "look-skin", "look-under", "measure",
          "cut", "shut-first", "centre", "press", "close", "next-due")  # fmt: skip
HARD = {"measure": 1.0, "cut": 1.5, "look-under": 1.0, "em-close": 0.5}
CLIMB = LEVEL_CODES[::-1]  # from "did it all for them" to "alone"
TOPICS = ("t-call", "t-signs", "t-leak", "t-alone", "t-bleed", "t-colour", "t-skin", "t-shrink", "t-order")
OF_A_KIND = {"colostomy": ("t-slow",), "ileostomy": ("t-fluid", "t-block", "t-pills"), "urostomy": ("t-uti", "t-drink")}
EVERY = timedelta(days=6)  # one left about every six days
LEFT_SINCE = timedelta(days=20)  # long enough ago that nobody is still to be rung
BESIDE = 0.2  # of the sessions are rated by two
ARRANGED = 2  # every second one had everything arranged before leaving
DAY = timedelta(days=1)


def finished_stays(unit: Unit, nurses: Sequence[Actor], now: datetime) -> list[Stay]:
    dice = Random(SEED)
    stays = [_stay(dice, unit, nurses, number, now) for number in range(HOW_MANY)]
    made = record_past_stays(actor=nurses[0], unit=unit, stays=stays)
    for stay, past in list(zip(made, stays, strict=True))[::ARRANGED]:
        _arrange(nurses[0], stay, past.left_at)
    return made


def _arrange(nurse: Actor, stay: Stay, left: datetime) -> None:
    """What blocks a leaving until it is in place, the day before."""
    for code, due, details in (
        ("supplies", left + 10 * DAY, {"days": 14}),
        ("number", None, {"phone": "00000 000 200", "day_and_night": True}),
        ("first-contact", left + DAY, {}),
        ("sheet", None, {"language": "English", "theirs": True}),
    ):
        make_arrangement(
            actor=nurse, stay=stay, code=code, state="made", due_at=due, details=details, at=left - DAY
        )


def _stay(dice: Random, unit: Unit, nurses: Sequence[Actor], number: int, now: datetime) -> PastStay:
    kind = dice.choices(list(KINDS), list(KINDS.values()))[0]
    left = now - LEFT_SINCE - number * EVERY - dice.random() * DAY
    surgery = left - dice.choice([5, 6, 7, 8, 9, 10, 12]) * DAY
    return PastStay(
        entry=StayEntry(
            unit=unit, authority="Made-up hospital", mrn=f"900-{number:03}", family_name="Longago",
            given_names=f"Number {number + 1}", born=date(1935 + dice.randrange(50), 1 + dice.randrange(12), 1),
            bed="", surgery_at=surgery, opened_at=surgery - DAY,
        ),
        stoma=StomaEntry(kind=kind, formed_at=surgery),
        kit=KitEntry(
            pieces="one", outlet="tap" if kind == "urostomy" else "strip", interval_hours=72, happened_at=surgery
        ),
        left_at=left,
        sessions=tuple(_sessions(dice, kind, nurses, surgery, left)),
    )  # fmt: skip


def _sessions(
    dice: Random, kind: str, nurses: Sequence[Actor], surgery: datetime, left: datetime
) -> Iterator[PastSession]:
    """An emptying on most days from the second on, a change on every other."""
    pace, empty = max(0.3, dice.gauss(1.1, 0.35)), "urine" if kind == "urostomy" else "emptying"
    topics = (*TOPICS, *OF_A_KIND[kind])
    for day in range(1, (left - surgery).days):
        at = surgery + (day + 0.2 * dice.random()) * DAY
        for procedure, codes in ((empty, EMPTYING[empty]), *((("change", CHANGE),) if day % 2 else ())):
            if procedure == "change" and kind != "colostomy":
                codes = ("off-cover", *codes)
            answers = tuple((code, _level(dice, 2.8 + day * pace - HARD.get(code, 0))) for code in codes)
            first, second = dice.sample(nurses, 2)
            assert first.clinician is not None
            two = dice.random() < BESIDE
            judged = (("fit-check", "right"),) if procedure == "change" else ()
            yield PastSession(
                procedure, at, first.clinician, (*answers, *judged), second.clinician if two else None,
                tuple((code, _near(dice, level)) for code, level in answers) if two else (),
            )  # fmt: skip
            at += timedelta(minutes=40)
        if day in (2, 4):
            said = "told" if day == 2 else "own_words"
            nurse = dice.choice(nurses).clinician
            assert nurse is not None
            yield PastSession("topics", at, nurse, tuple((code, said) for code in topics))


def _level(dice: Random, skill: float) -> str:
    return CLIMB[min(5, max(0, round(dice.gauss(skill, 0.7))))]


def _near(dice: Random, level: str) -> str:
    return CLIMB[min(5, max(0, CLIMB.index(level) + dice.choice([0, 0, 0, 0, 0, 1, -1])))]
