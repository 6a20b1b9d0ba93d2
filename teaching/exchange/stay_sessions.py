"""The parts of a stay file about the bedside: sessions with their ratings, care and rechecks."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from teaching.exchange.stay_answers import Rows, answer_fault, answer_of_all
from teaching.exchange.stay_fields import UNKNOWN, Fields
from teaching.exchange.stay_people import has_agreed, which_stoma
from teaching.exchange.wrong_file import did_you_mean
from teaching.rules.facts import Care, Chart, Rating, Recheck, Witness
from teaching.rules.vocabulary import (
    AIDS,
    GRADES,
    INTERPRETERS,
    LEVEL_CODES,
    LOWER_REASONS,
    NOT_RATED_CODES,
    PROCEDURES,
    UNAIDED,
    WEAR_ENDS,
)

SIGNED_OFF = "signed-off"
RENEWED = ("emptying", "swap", "urine", "night")
COSIGNERS = ("registered", "stoma-nurse")
LOWER = (*(code for code in LEVEL_CODES if code != UNAIDED), "wrong")
TOPICS = "topics"


@dataclass
class Events:
    """Which stoma each event key was used for, so that two stomas are never mixed up in one."""

    stoma_of: dict[str, str] = field(default_factory=dict)

    def key(self, fields: Fields, stoma: str, default: str) -> str:
        key = fields.text("event", default)
        if self.stoma_of.setdefault(key, stoma) != stoma:
            fields.fault(
                "event",
                f"{key} is already an event of the stoma {self.stoma_of[key]}, not of {stoma}; "
                "correct the stoma, or give this one another event.",
            )
        return key


@dataclass(frozen=True)
class Session:
    """What every rating of one session shares."""

    stoma: str
    learner: str
    at: datetime
    event: str
    witness: Witness
    practice: bool
    reported: bool
    interpreter: str


def read_sessions(top: Fields, chart: Chart, events: Events) -> tuple[Rating, ...]:
    """All ratings. `chart` is what the file says of stomas, kits, learners and states, without any rating."""
    found: list[Rating] = []
    for index, fields in enumerate(top.each("sessions"), start=1):
        stoma, learner = which_stoma(fields, chart.stomas), _learner(fields, chart)
        at, ended = fields.when("at"), fields.happened("ended")
        if ended and ended < at:
            fields.fault("ended", "is before the session began; correct one of the two.")
        session = Session(
            stoma,
            learner,
            at,
            events.key(fields, stoma, f"session-{index}"),
            read_witness(fields),
            fields.yes("practice"),
            fields.yes("reported"),
            fields.code("interpreter", INTERPRETERS, ""),
        )
        procedure = fields.code("procedure", PROCEDURES, TOPICS if fields.has("topics") else ...)
        if at is UNKNOWN or not stoma:
            fields.asked |= {"all", "ratings", "topics"}
            continue
        _helper_said_yes(fields, chart, learner, at)
        if fault := Rows(chart, stoma, at).procedure_fault(procedure):
            fields.fault("procedure", fault)
            fields.asked |= {"all", "ratings", "topics"}
            continue
        found += _ratings(fields, session, procedure, chart)
    return _once(top, tuple(found))


def _ratings(fields: Fields, session: Session, procedure: str, chart: Chart) -> Iterator[Rating]:
    rows = Rows(chart, session.stoma, session.at)
    named = {**_named(fields, "ratings", procedure), **_named(fields, TOPICS, TOPICS)}
    whole = fields.text("all")
    if whole and whole not in LEVEL_CODES + NOT_RATED_CODES:
        fields.fault("all", f"{whole} is unknown; {did_you_mean(whole, LEVEL_CODES + NOT_RATED_CODES)}")
    elif whole and procedure == TOPICS:
        fields.fault("all", "topics are answered one by one; list them under topics.")
    elif whole and not rows.rated(procedure):
        fields.fault("all", f"no row of {procedure} is rated here; leave it out.")
    elif whole:
        told = {code: answer_of_all(item, whole) for code, item in rows.rated(procedure).items()}
        made = [
            _rating(session, code, answer) for code, answer in told.items() if answer and code not in named
        ]
        if made and (fault := _before_surgery(made[0], chart)):
            fields.fault("all", fault)
        yield from made
    if not whole and not named:
        fields.fault("", "rates nothing; add all, ratings or topics, or move it to care.")
    for code, (path, kind, told) in named.items():
        yield _named_rating(fields, session, rows, code, path, kind, told)


def _named_rating(
    fields: Fields, session: Session, rows: Rows, code: str, path: str, kind: str, told: dict
) -> Rating:
    """One row answered by name; what it does not say is the session's, but a topic is never practice."""
    item = rows.chart.checklist.by_code.get(code)
    topic = item is not None and item.topic
    with Fields(fields.book, told, path) as rating:
        answer, reason = rating.data.get("answer"), rating.code("reason", LOWER_REASONS, "")
        rating.asked.add("answer")
        made = _rating(
            session,
            code,
            str(answer),
            reason=reason,
            aids=rating.codes("aids", AIDS),
            note=rating.text("note"),
            practice=rating.yes("practice", session.practice and not topic),
            reported=rating.yes("reported", session.reported and not topic),
        )
        fault = (
            rows.fault(code, kind)
            or (item and answer_fault(item, answer))
            or _before_surgery(made, rows.chart)
        )
        if fault:
            rating.fault("", fault)
        if reason and answer not in LOWER:
            rating.fault("reason", "stands beside a lower level only; leave it out.")
        if topic and (made.practice or made.reported):
            rating.fault("", "a topic is explained in words, never practised or reported; leave that out.")
        if made.practice and made.reported:
            rating.fault("", "practice is seen, never reported; leave one of the two out.")
    return made


def _named(fields: Fields, key: str, kind: str) -> dict[str, tuple[str, str, dict]]:
    """Rows answered by name: code -> (path, procedure, long form). The short form is the answer alone."""
    told = fields.take(key, dict, 'write rows and answers in braces, such as {"em-close": "04"}.', {})
    assert isinstance(told, dict) or told is None
    return {
        code: (f"{fields.at(key)}.{code}", kind, value if isinstance(value, dict) else {"answer": value})
        for code, value in (told or {}).items()
    }


def _rating(session: Session, code: str, answer: str, **more: Any) -> Rating:
    shared: dict[str, Any] = {"practice": session.practice, "reported": session.reported, **more}
    return Rating(
        session.stoma,
        code,
        session.learner,
        answer,
        session.at,
        session.event,
        session.witness,
        interpreter=session.interpreter,
        **shared,
    )


def _before_surgery(rating: Rating, chart: Chart) -> str:
    item = chart.checklist.by_code.get(rating.code)
    stoma = next(one for one in chart.stomas if one.key == rating.stoma)
    formed = stoma.formed_at or chart.surgery_at
    with_hands = item is not None and not item.topic and rating.answer not in NOT_RATED_CODES
    if not with_hands or rating.practice or not formed or rating.at >= formed:
        return ""
    return "is dated before the stoma was formed; mark it as practice, or correct the time."


def _helper_said_yes(fields: Fields, chart: Chart, learner: str, at: datetime) -> None:
    kind = next((one.kind for one in chart.learners if one.key == learner), "person")
    if kind == "helper" and not has_agreed(learner, at, chart.consents):
        fields.fault(
            "learner",
            f"{learner} had not said yes by then, or the person had not; "
            "add both to consents, or agreed beside the helper.",
        )


def _learner(fields: Fields, chart: Chart) -> str:
    person = next(one.key for one in chart.learners if one.kind == "person")
    return fields.code("learner", [one.key for one in chart.learners], person)


def _once(top: Fields, ratings: tuple[Rating, ...]) -> tuple[Rating, ...]:
    """Each row once for each learner, event and witness."""
    seen = set()
    for one in ratings:
        key = (one.event, one.witness, one.learner, one.code)
        if key in seen:
            top.fault(
                "sessions",
                f"{one.code} is rated twice for {one.learner} in the event {one.event} by the same "
                "witness; keep one, or name the witnesses.",
            )
        seen.add(key)
    return ratings


def read_witness(fields: Fields) -> Witness:
    """Who saw it: a grade, signed-off for a registered nurse signed off to teach, or an object."""
    told = fields.take("by", (str, dict), f"say who saw it: {', '.join((*GRADES, SIGNED_OFF))}.", ...)
    if isinstance(told, str):
        grade = fields.code("by", (*GRADES, SIGNED_OFF))
        return Witness(grade="registered", signed_off=True) if grade == SIGNED_OFF else Witness(grade=grade)
    with Fields(fields.book, told or {}, fields.at("by")) as who:
        grade = who.code("grade", GRADES) if told else ""
        return Witness(who.text("name"), grade, who.yes("signed_off"), who.code("cosigned_by", COSIGNERS, ""))


def read_care(top: Fields, chart: Chart, events: Events) -> tuple[Care, ...]:
    found = []
    for index, fields in enumerate(top.each("care"), start=1):
        stoma, at = which_stoma(fields, chart.stomas), fields.when("at")
        procedure = fields.code("procedure", [one for one in PROCEDURES if one != TOPICS])
        wear_end = fields.code("wear_end", WEAR_ENDS, "")
        if wear_end and procedure != "change":
            fields.fault(
                "wear_end", "only a change ends a wear; leave it out, or write the procedure change."
            )
        event = events.key(fields, stoma, f"care-{index}")
        if at is not UNKNOWN and stoma and (fault := Rows(chart, stoma, at).procedure_fault(procedure)):
            fields.fault("procedure", fault)
        found.append(Care(stoma, procedure, at, event, wear_end))
    return tuple(found)


def read_rechecks(top: Fields, chart: Chart, events: Events) -> tuple[Recheck, ...]:
    found = []
    for index, fields in enumerate(top.each("rechecks"), start=1):
        stoma, at, learner = which_stoma(fields, chart.stomas), fields.when("at"), _learner(fields, chart)
        procedure = fields.code("procedure", PROCEDURES)
        if procedure and procedure not in RENEWED:
            fields.fault(
                "procedure",
                f"{procedure} is not renewed by a recheck, only {', '.join(RENEWED)}; record a session.",
            )
        witness, event = read_witness(fields), events.key(fields, stoma, f"recheck-{index}")
        if at is not UNKNOWN and stoma:
            _helper_said_yes(fields, chart, learner, at)
            if fault := Rows(chart, stoma, at).procedure_fault(procedure):
                fields.fault("procedure", fault)
        found.append(Recheck(stoma, procedure, learner, at, event, witness))
    return tuple(found)
