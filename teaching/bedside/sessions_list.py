"""What happened at the bedside, newest first, each in one sentence."""

from dataclasses import dataclass
from datetime import datetime

from teaching.bedside.which import learner_name
from teaching.rules.facts import Chart, Rating
from teaching.rules.huddle import when
from teaching.rules.vocabulary import ANSWERS, NOT_RATED_CODES, PROCEDURES, TOPIC_CODES, UNAIDED, WEAR_ENDS

ALONE = (UNAIDED, "right", "not_needed")
CARE = {
    "emptying": "Emptied by a nurse",
    "urine": "Emptied by a nurse",
    "swap": "Swapped by a nurse",
    "change": "Changed by a nurse",
    "night": "Night drainage seen to by a nurse",
    "meeting": "Met the stoma",
}
SHOWN = 20
NAMED = 4  # steps with the same answer that a line still names; its own page names them all


@dataclass(frozen=True, slots=True)
class Happened:
    at: datetime
    when: str
    said: str
    event: str = ""


def happened(chart: Chart, person: str, now: datetime, taken_back=()) -> tuple[Happened, ...]:
    """`taken_back`: retractions, so that what was entered in error stays within reach, and says so."""
    events: dict[str, list[Rating]] = {}
    for rating in chart.ratings:
        events.setdefault(rating.event, []).append(rating)
    found = [_session(chart, person, ratings, now) for ratings in events.values()]
    said = [(care, _care(chart, care)) for care in chart.care]
    said += [(tap, _still_manages(chart, person, tap)) for tap in chart.rechecks]
    found += [Happened(one.at, when(one.at, chart.ward, now), words, one.event) for one, words in said]
    found += [_taken_back(chart, one, now) for one in taken_back]
    return tuple(sorted(found, key=lambda one: one.at, reverse=True)[:SHOWN])


def _taken_back(chart: Chart, one, now: datetime) -> Happened:
    said = f"{PROCEDURES[one.event.procedure]}: entered in error, says {one.signer_name}. It does not count."
    return Happened(one.began_at, when(one.began_at, chart.ward, now), said, str(one.event.uid))


def _where(chart: Chart, stoma: str) -> str:
    return f", {chart.stoma(stoma).label}" if len(chart.stomas) > 1 else ""


def _session(chart: Chart, person: str, ratings: list[Rating], now: datetime) -> Happened:
    first = ratings[0]
    procedure = chart.checklist.by_code[first.code].procedure
    what, said = f"{PROCEDURES[procedure]}{_where(chart, first.stoma)}", []
    for key in dict.fromkeys(rating.learner for rating in ratings):
        own = [rating for rating in ratings if rating.learner == key]
        who = f"{learner_name(chart.learner(key), person)}, " if len(chart.learners) > 1 else ""
        said.append(f"{who}{_how(chart, own)}")
    if any(rating.practice for rating in ratings):
        said.append("practice")
    if first.witness.name:
        seen = f"seen by {first.witness.name}"
        unsigned = first.witness.grade == "student" and not first.witness.cosigned_by
        said.append(seen + (" (student, not yet co-signed)" if unsigned else ""))
    return Happened(first.at, when(first.at, chart.ward, now), f"{what}: {'; '.join(said)}.", first.event)


def _how(chart: Chart, ratings: list[Rating]) -> str:
    """Such as "alone on 4 of 5; needed help: Shut the outlet and check it (04)"."""
    hands = [rating for rating in ratings if rating.answer not in (*TOPIC_CODES, *NOT_RATED_CODES)]
    told = [rating for rating in hands if rating.reported]
    hands = [rating for rating in hands if not rating.reported]
    helped = [rating for rating in hands if rating.answer not in ALONE]
    unrated = [rating for rating in ratings if rating.answer in NOT_RATED_CODES]
    topics = _topics(chart, [rating for rating in ratings if rating.answer in TOPIC_CODES])
    said = []
    if hands:
        alone = len(hands) - len(helped)
        said = [f"alone on all {alone}" if not helped else f"alone on {alone or 'none'} of {len(hands)}"]
    if helped and len(helped) == len(hands) > 1 and len({one.answer for one in helped}) == 1:
        said, helped = [f"needed help with all {len(hands)} ({_answer(helped[0])})"], []
    for what, own in (("needed help", helped), ("not rated", unrated), ("told, not seen", told)):
        if own:
            said.append(f"{what}: {_steps(chart, own)}")
    return "; ".join([*said, *topics])


def _topics(chart: Chart, ratings: list[Rating]) -> list[str]:
    """Such as "told: Whom to ring"; many with the same answer are counted."""
    together: dict[str, list[str]] = {}
    for one in ratings:
        together.setdefault(ANSWERS[one.answer].words.lower(), []).append(chart.checklist.by_code[one.code].title)
    return [
        f"{answer}: {'; '.join(titles) if len(titles) <= NAMED else f'{len(titles)} topics'}"
        for answer, titles in together.items()
    ]


def _steps(chart: Chart, ratings: list[Rating]) -> str:
    """Such as "Wash hands, Shut the outlet and check it (each 04), Cut the hole (03)"; many alike are counted."""
    together: dict[str, list[str]] = {}
    for one in ratings:
        together.setdefault(_answer(one), []).append(chart.checklist.by_code[one.code].title)
    return ", ".join(
        f"{', '.join(titles) if len(titles) <= NAMED else f'{len(titles)} steps'} "
        f"({'each ' if len(titles) > 1 else ''}{answer})"
        for answer, titles in together.items()
    )


def _answer(rating: Rating) -> str:
    """The level by its code, a judgement in words."""
    return rating.answer if rating.answer.isdigit() else ANSWERS[rating.answer].words.lower()


def _care(chart: Chart, care) -> str:
    did = CARE.get(care.procedure, "Care given")
    ended = f"; the pouch before ended: {WEAR_ENDS[care.wear_end]}" if care.wear_end in WEAR_ENDS else ""
    return f"{did}{_where(chart, care.stoma)}{ended}."


def _still_manages(chart: Chart, person: str, tap) -> str:
    who = learner_name(chart.learner(tap.learner), person)
    return f"{PROCEDURES[tap.procedure]}{_where(chart, tap.stoma)}; {who}: still manages all of it alone."
