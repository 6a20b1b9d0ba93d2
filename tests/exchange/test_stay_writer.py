"""What is written as a stay file reads back as the same facts. All people are invented."""

import json
from dataclasses import fields, replace
from datetime import UTC, datetime, time, timedelta

from hypothesis import given, settings
from hypothesis import strategies as some

from teaching.exchange.checklist_file import load_checklist
from teaching.exchange.stay_file import read_stay
from teaching.exchange.stay_writer import stay_file_of
from teaching.rules import facts
from teaching.rules import vocabulary as words

CHECKLIST = load_checklist()
FORMED = datetime(2026, 10, 28, 12, 5, tzinfo=UTC)
NOW = FORMED + timedelta(days=20)
SHIFTS = (facts.Shift("day", time(7), time(19, 30)), facts.Shift("night", time(19, 30), time(7)))
BASE = facts.Chart(
    stay="a stay",
    ward=facts.Ward("America/New_York", SHIFTS, 11),
    checklist=CHECKLIST,
    stomas=(
        facts.Stoma("left", "left one", "colostomy", "end", "left", FORMED),
        facts.Stoma("right", "", "urostomy", "end", "right", FORMED),
    ),
    learners=(
        facts.Learner("p", "person", needs=frozenset({"sight"})),
        facts.Learner("h", "helper", "", "wife", frozenset(), True, 0),
    ),
    kits=(
        facts.Kit("left", FORMED, items=frozenset({"powder", "seal"}), interval_hours=72, cut_limit_mm=60.5),
        facts.Kit("right", FORMED, "one", "convex", "pre-cut", "drainable", "cap", pre_cut_mm=32.0),
    ),
    consents=tuple(facts.Consent("h", whose, True, FORMED) for whose in words.CONSENT_WHOSE),
    surgery_at=FORMED,
    planned_at=NOW + timedelta(days=1),
    taught_before=True,
    language="pl",
)
# Minutes from surgery on, so that both 01:30s of 1 November 2026 in New York are among them.
moments = some.integers(0, 20 * 24 * 60).map(lambda minutes: FORMED + timedelta(minutes=minutes))
witnesses = some.builds(
    facts.Witness,
    name=some.sampled_from(["", "Made Up"]),
    grade=some.sampled_from(list(words.GRADES)),
    signed_off=some.booleans(),
    cosigned_by=some.sampled_from(["", "registered", "stoma-nurse"]),
)
ROWS = [("left", code) for code in ("em-open", "em-close", "cut", "powder", "t-call", "t-slow")] + [
    ("right", code) for code in ("ue-shut", "nd-choice", "press", "t-uti")
]


@some.composite
def ratings(draw):
    stoma, code = draw(some.sampled_from(ROWS))
    item = CHECKLIST.by_code[code]
    own = words.TOPIC_CODES if item.topic else words.DECISION_CODES if item.decision else words.LEVEL_CODES
    answer = draw(some.sampled_from(own + words.NOT_RATED_CODES))
    seen = draw(some.sampled_from(["", "practice", "reported"])) if not item.topic else ""
    lower = answer in ("01", "02", "03", "04", "05", "wrong")
    return facts.Rating(
        stoma=stoma,
        code=code,
        learner=draw(some.sampled_from(["p", "h"])),
        answer=answer,
        at=draw(moments),
        event=f"{stoma} {draw(some.integers())}",
        witness=draw(witnesses),
        practice=seen == "practice",
        reported=seen == "reported",
        reason=draw(some.sampled_from(["", *words.LOWER_REASONS])) if lower else "",
        aids=draw(some.frozensets(some.sampled_from(list(words.AIDS)))),
        interpreter=draw(some.sampled_from(["", *words.INTERPRETERS])),
        note=draw(some.text(max_size=20)),
    )


def once(found):
    """Each row once for each learner, event and witness, as the record has it."""
    return tuple({(one.event, one.witness, one.learner, one.code): one for one in found}.values())


def same(chart, other):
    """Equal in every fact; the order of a sequence says nothing."""
    for column in fields(facts.Chart):
        left, right = getattr(chart, column.name), getattr(other, column.name)
        if isinstance(left, tuple):
            assert len(left) == len(right) and set(left) == set(right), column.name
        else:
            assert left == right, column.name
    return True


def back(chart):
    return read_stay(json.loads(json.dumps(stay_file_of(chart, NOW)))).chart


@settings(max_examples=150, deadline=None)
@given(some.lists(ratings(), max_size=12))
def test_ratings_come_back_the_same(found):
    chart = replace(BASE, ratings=once(found))
    assert same(chart, back(chart))


def test_every_kind_of_fact_comes_back_the_same():
    at, later = FORMED + timedelta(days=2, minutes=7, seconds=3, microseconds=5), FORMED + timedelta(days=3)
    chart = replace(
        BASE,
        consents=(*BASE.consents, facts.Consent("h", "person", False, later)),
        care=(facts.Care("left", "change", at, "c1", "leak"), facts.Care("right", "urine", at, "c2")),
        rechecks=(facts.Recheck("left", "emptying", "p", at, "r1", facts.Witness("Made Up", "stoma-nurse")),),
        body_events=(facts.BodyEvent("delirium", at, later), facts.BodyEvent("rod", FORMED, None, "left")),
        findings=(
            facts.Finding("left", at, "f1", "pink-red", "wet", "gap", "level", 32.5, 30.0, 35.0, 33.0,
                          (("feet", "wet-raw"), ("head", "good")), "nurse", "spot", "leak"),
        ),
        totals=(facts.OutputTotal("left", at, 0), facts.OutputTotal("left", later, 1700)),
        cautions=(
            facts.Caution("k1", "gap", "call_now", "", at, "left", later, "Dr Made Up", "come", later, later),
            facts.Caution("k2", "no-urine", "today", "words of their own", at, withdrawn=True),
        ),
        arrangements=(facts.Arrangement("first-contact", "asked", at, "a call", NOW + timedelta(days=9)),),
        appointments=(
            facts.Appointment("a1", NOW + timedelta(days=1), "confirmed", "emptying", ("h", "p"), "left"),
            facts.Appointment("a2", NOW + timedelta(days=2), "booked"),
        ),
        goes_to="facility",
        state="paused",
    )  # fmt: skip
    assert same(chart, back(chart))


def test_the_moment_judged_is_kept():
    assert read_stay(stay_file_of(BASE, NOW)).at == NOW


def test_ratings_of_one_session_are_gathered():
    shared = {"learner": "p", "at": FORMED, "event": "e", "witness": facts.Witness()}
    told = stay_file_of(
        replace(
            BASE,
            ratings=(
                facts.Rating("left", "em-open", answer="06", **shared),
                facts.Rating("left", "em-close", answer="04", **shared),
                facts.Rating("left", "t-call", answer="told", **shared),
            ),
        )
    )
    (session,) = told["sessions"]
    assert (session["procedure"], session["ratings"], session["topics"]) == (
        "emptying", {"em-open": "06", "em-close": "04"}, {"t-call": "told"},
    )  # fmt: skip
