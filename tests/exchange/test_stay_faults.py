"""A wrong stay file is refused whole: every fault by path, with its mend. All people are invented."""

from copy import deepcopy

import pytest

from teaching.exchange.stay_file import read_stay
from teaching.exchange.wrong_file import WrongFile

EMPTYING = {"at": "day 3 10:00", "stoma": "left", "procedure": "emptying", "by": "registered", "all": "06"}
TWO = {
    "format": "ostomy-teach stay file",
    "version": 1,
    "ward": {"zone": "America/New_York"},
    "surgery": "2026-03-05 09:00",
    "at": "day 5 12:00",
    "stomas": [
        {"key": "left", "kind": "colostomy", "side": "left"},
        {"key": "right", "kind": "urostomy", "side": "right"},
    ],
    "kits": [
        {"stoma": "left", "since": "day 0 12:00", "pieces": "two", "opening": "cut"},
        {"stoma": "right", "since": "day 0 12:00", "pieces": "one", "opening": "pre-cut"},
    ],
    "learners": [{"key": "son", "relation": "son"}],
    "sessions": [EMPTYING],
}


def faults(at=None, **more):
    with pytest.raises(WrongFile) as wrong:
        read_stay({**deepcopy(TWO), **more}, at)
    return list(wrong.value.faults)


def test_the_file_they_all_start_from_is_right():
    assert len(read_stay(TWO).chart.ratings) == 5


SESSION_FAULTS = [
    (
        "unknown level",
        {"all": "6"},
        "sessions[0].all: 6 is unknown; use one of: 06, 05, 04, 03, 02, 01, 07, 10, 88.",
    ),
    (
        "unknown level of a row",
        {"ratings": {"em-open": "11"}},
        "sessions[0].ratings.em-open: 11 is not an answer for a step",
    ),
    (
        "level as a number",
        {"ratings": {"em-open": 6}},
        "sessions[0].ratings.em-open: 6 is not text; write the answer in quotes",
    ),
    (
        "never written",
        {"ratings": {"em-open": "09"}},
        "sessions[0].ratings.em-open: 09 is never written: leave out a row",
    ),
    (
        "topic's answer for a step",
        {"ratings": {"em-open": "told"}},
        "sessions[0].ratings.em-open: told is not an answer for a step",
    ),
    (
        "level for a topic",
        {"topics": {"t-call": "06"}},
        "sessions[0].topics.t-call: 06 is not an answer for a topic",
    ),
    (
        "row of another checklist",
        {"ratings": {"em-opn": "06"}},
        "sessions[0].ratings.em-opn: is not a row of the checklist stoma-care 1; did you mean em-open?",
    ),
    (
        "row of another procedure",
        {"ratings": {"cut": "06"}},
        "sessions[0].ratings.cut: belongs to change, not to emptying",
    ),
    (
        "step under topics",
        {"topics": {"em-open": "told"}},
        "sessions[0].topics.em-open: belongs to emptying, not to topics",
    ),
    (
        "a prompt",
        {"ratings": {"em-run": "06"}},
        "sessions[0].ratings.em-run: is a prompt here, not rated; leave it out.",
    ),
    (
        "kit not there",
        {"procedure": "change", "ratings": {"powder": "right"}},
        "sessions[0].ratings.powder: is not for this stoma with the kit and states it had then: it needs kit",
    ),
    (
        "no kit by then",
        {"at": "day 0 11:00"},
        "sessions[0].procedure: emptying cannot be placed: no kit is recorded for left",
    ),
    (
        "two stomas mixed up",
        {"stoma": "right"},
        "sessions[0].procedure: right had no emptying with the kit it wore then; did you mean the stoma left",
    ),
    (
        "topic of the other stoma",
        {"topics": {"t-uti": "told"}},
        "sessions[0].topics.t-uti: is a row of the stoma right, not of left",
    ),
    ("which stoma", {"stoma": None}, "sessions[0].stoma: there are 2 stomas; say which: left or right."),
    ("unknown stoma", {"stoma": "lft"}, "sessions[0].stoma: lft is unknown; did you mean left?"),
    (
        "unknown learner",
        {"learner": "daughter"},
        "sessions[0].learner: daughter is unknown; use one of: person, son.",
    ),
    (
        "helper who has not said yes",
        {"learner": "son"},
        "sessions[0].learner: son had not said yes by then, or the person had not",
    ),
    ("future time", {"at": "day 5 12:01"}, "sessions[0].at: day 5 12:01 lies after the moment judged"),
    ("end before start", {"ended": "day 3 09:59"}, "sessions[0].ended: is before the session began"),
    (
        "time that never was",
        {"at": "2026-03-08 02:30"},
        "sessions[0].at: 2026-03-08 02:30 never was in America/New_York",
    ),
    ("nobody saw it", {"by": None}, "sessions[0].by: is missing; say who saw it: stoma-nurse, registered"),
    ("unknown witness", {"by": "nurse"}, "sessions[0].by: nurse is unknown; "),
    (
        "key in the witness",
        {"by": {"grade": "registered", "sign_off": True}},
        "sessions[0].by.sign_off: nobody reads this key; did you mean signed_off?",
    ),
    ("no procedure", {"procedure": None}, "sessions[0].procedure: is missing; use one of: meeting, change"),
    ("unknown procedure", {"procedure": "empty"}, "sessions[0].procedure: empty is unknown; "),
    ("nothing rated", {"all": None}, "sessions[0]: rates nothing; add all, ratings or topics"),
    ("unknown key", {"learnr": "son"}, "sessions[0].learnr: nobody reads this key; did you mean learner?"),
    (
        "reason without a lower level",
        {"ratings": {"em-open": {"answer": "06", "reason": "rushed"}}},
        "sessions[0].ratings.em-open.reason: stands beside a lower level only",
    ),
    (
        "unknown reason",
        {"ratings": {"em-open": {"answer": "04", "reason": "tired"}}},
        "sessions[0].ratings.em-open.reason: tired is unknown",
    ),
    (
        "practised topic",
        {"topics": {"t-call": {"answer": "told", "practice": True}}},
        "sessions[0].topics.t-call: a topic is explained in words",
    ),
    (
        "practice only reported",
        {"ratings": {"em-open": {"answer": "06", "practice": True, "reported": True}}},
        "sessions[0].ratings.em-open: practice is seen, never reported",
    ),
    ("all topics at once", {"procedure": "topics"}, "sessions[0].all: topics are answered one by one"),
    ("meeting rated", {"procedure": "meeting"}, "sessions[0].all: no row of meeting is rated here"),
    (
        "ratings in a list",
        {"ratings": ["em-open"]},
        "sessions[0].ratings: ['em-open'] does not fit here; write rows and answers",
    ),
]


@pytest.mark.parametrize(("name", "change", "sentence"), SESSION_FAULTS)
def test_a_fault_in_a_session(name, change, sentence):
    found = faults(sessions=[{**EMPTYING, **change}])
    assert any(fault.startswith(sentence) for fault in found), found


def test_a_real_session_before_the_stoma_was_formed():
    kits = [{**kit, "since": "day -2 08:00"} for kit in TWO["kits"]]
    found = faults(kits=kits, sessions=[{**EMPTYING, "at": "day -1 10:00"}])
    assert found == [
        "sessions[0].all: is dated before the stoma was formed; mark it as practice, or correct the time."
    ]


CONSENTS = [
    ("the person said no", [("person", False, "day 1 09:00"), ("helper", True, "day 1 09:00")]),
    ("only the helper said yes", [("helper", True, "day 1 09:00")]),
    (
        "taken back before",
        [("person", True, "day 1 09:00"), ("helper", True, "day 1 09:00"), ("helper", False, "day 2 09:00")],
    ),
]


@pytest.mark.parametrize(("name", "words"), CONSENTS)
def test_a_helper_needs_the_yes_of_both(name, words):
    consents = [{"learner": "son", "whose": whose, "yes": yes, "at": at} for whose, yes, at in words]
    found = faults(consents=consents, sessions=[{**EMPTYING, "learner": "son"}])
    assert len(found) == 1 and found[0].startswith("sessions[0].learner: son had not said yes by then")


def test_a_yes_taken_back_later_leaves_the_session():
    later = {"learner": "son", "whose": "person", "yes": False, "at": "day 4 09:00"}
    agreed = [{"key": "son", "agreed": "day 1 09:00"}]
    assert read_stay(
        {**TWO, "learners": agreed, "consents": [later], "sessions": [{**EMPTYING, "learner": "son"}]}
    )


def test_an_event_belongs_to_one_stoma():
    other = {**EMPTYING, "stoma": "right", "procedure": "urine", "event": "e1"}
    found = faults(sessions=[{**EMPTYING, "event": "e1"}, other])
    assert found == [
        "sessions[1].event: e1 is already an event of the stoma left, not of right; "
        "correct the stoma, or give this one another event."
    ]


def test_a_row_is_rated_once_in_an_event():
    found = faults(
        sessions=[
            {**EMPTYING, "event": "e1", "all": None, "ratings": {"em-open": answer}}
            for answer in ("06", "04")
        ]
    )
    assert found == [
        "sessions: em-open is rated twice for person in the event e1 by the same witness; "
        "keep one, or name the witnesses."
    ]


@pytest.mark.parametrize(
    "data", [[], None, "stay", 1, {}, {"stomas": {}, "ward": [], "sessions": "none", "at": 3}]
)
def test_no_shape_of_file_breaks_the_reader(data):
    with pytest.raises(WrongFile):
        read_stay(data)


def test_all_faults_are_told_at_once_and_nothing_is_read():
    found = faults(
        state="in bed",
        sessions=[{**EMPTYING, "all": "6"}, {**EMPTYING, "by": "me"}],
        totals=[{"stoma": "left", "until": "day 9 07:00", "ml": -1}],
    )
    assert [fault.split(": ")[0] for fault in found] == [
        "state",
        "sessions[0].all",
        "sessions[1].by",
        "totals[0].until",
        "totals[0].ml",
    ]
