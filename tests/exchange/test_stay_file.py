"""A stay file as a person writes it: the short forms, and what they stand for. All people are invented."""

from datetime import UTC, datetime, time

import pytest

from teaching.exchange.stay_file import load_stay, read_stay
from teaching.rules.facts import Care, Consent, Kit, Rating, Recheck, Shift, Stoma, Witness

HEAD = {
    "format": "ostomy-teach stay file",
    "version": 1,
    "ward": "Europe/London",
    "surgery": "2026-05-11 09:00",
    "stomas": [{"kind": "ileostomy"}],
    "kits": [{"since": "day 0 12:00", "pieces": "two", "opening": "cut"}],
}


def stay(**more):
    return read_stay({**HEAD, **more})


def utc(day, hour, minute=0):
    return datetime(2026, 5, day, hour, minute, tzinfo=UTC)


def answers(found):
    return {rating.code: rating.answer for rating in found.chart.ratings}


def test_a_lone_stoma_its_kit_and_the_person_need_no_names():
    found = stay()
    assert found.chart.stomas == (Stoma("stoma", "ileostomy", "ileostomy"),)
    assert found.chart.kits == (Kit("stoma", utc(11, 11)),)
    assert [(one.key, one.kind) for one in found.chart.learners] == [("person", "person")]
    assert found.chart.surgery_at == utc(11, 8)
    assert (found.chart.checklist.code, found.chart.checklist.number) == ("stoma-care", 1)


def test_the_language_to_teach_in_is_the_wards_own_unless_the_file_says_another():
    assert stay().chart.language == "en"
    assert stay(language="pl").chart.language == "pl"


def test_one_answer_for_all_sets_every_rated_row():
    session = {"at": "day 2 10:00", "procedure": "emptying", "by": "registered", "all": "06"}
    assert answers(stay(sessions=[session])) == dict.fromkeys(
        ["em-when", "em-open", "em-wipe", "em-close", "em-hands"], "06"
    )


def test_a_row_named_goes_before_all():
    session = {
        "at": "day 2 10:00",
        "procedure": "emptying",
        "by": "registered",
        "all": "06",
        "ratings": {"em-close": "04"},
    }
    assert answers(stay(sessions=[session]))["em-close"] == "04"


def test_06_for_all_means_each_decision_was_judged_rightly_and_a_lower_level_says_nothing_of_it():
    session = {"at": "day 2 10:00", "procedure": "change", "by": "stoma-nurse"}
    assert {answers(stay(sessions=[{**session, "all": "06"}]))[row] for row in ("hair", "fit-check")} == {
        "right"
    }
    lower = answers(stay(sessions=[{**session, "all": "03"}]))
    assert lower["cut"] == "03" and {"hair", "fit-check"}.isdisjoint(lower)
    assert answers(stay(sessions=[{**session, "all": "88"}]))["hair"] == "88"


def test_what_a_rating_carries():
    student = {"name": "A. Student", "grade": "student", "cosigned_by": "registered"}
    cut = {"answer": "04", "reason": "drowsy", "aids": ["magnifier"], "note": "slow", "practice": True}
    session = {"at": "day 2 10:00", "procedure": "change", "by": student, "event": "e1"}
    (rating,) = stay(sessions=[{**session, "interpreter": "trained", "ratings": {"cut": cut}}]).chart.ratings
    assert rating == Rating(
        stoma="stoma",
        code="cut",
        learner="person",
        answer="04",
        at=utc(13, 9),
        event="e1",
        witness=Witness("A. Student", "student", False, "registered"),
        practice=True,
        reason="drowsy",
        aids=frozenset({"magnifier"}),
        interpreter="trained",
        note="slow",
    )


@pytest.mark.parametrize(
    ("by", "witness"),
    [
        ("registered", Witness(grade="registered")),
        ("signed-off", Witness(grade="registered", signed_off=True)),
        ("stoma-nurse", Witness(grade="stoma-nurse")),
        ({"grade": "assistant", "name": "B"}, Witness("B", "assistant")),
    ],
)
def test_who_saw_it(by, witness):
    session = {"at": "day 2 10:00", "procedure": "emptying", "by": by, "ratings": {"em-open": "06"}}
    assert stay(sessions=[session]).chart.ratings[0].witness == witness


def test_topics_need_no_procedure_and_are_never_practice():
    session = {"at": "day -3 10:00", "by": "stoma-nurse", "practice": True, "topics": {"t-call": "told"}}
    (rating,) = stay(sessions=[session]).chart.ratings
    assert (rating.code, rating.answer, rating.practice) == ("t-call", "told", False)


def test_practice_before_surgery_is_welcome():
    kit = {"since": "day -5 09:00", "pieces": "two", "opening": "cut"}
    session = {
        "at": "day -3 10:00",
        "procedure": "emptying",
        "by": "stoma-nurse",
        "practice": True,
        "all": "04",
    }
    assert {one.practice for one in stay(kits=[kit], sessions=[session]).chart.ratings} == {True}


def test_sessions_of_one_event_share_its_key_and_others_get_their_own():
    session = {"at": "day 2 10:00", "procedure": "emptying", "by": "registered", "ratings": {"em-open": "06"}}
    shared = [{**session, "event": "both"}, {**session, "event": "both", "by": "stoma-nurse"}, session]
    assert [one.event for one in stay(sessions=shared).chart.ratings] == ["both", "both", "session-3"]


def test_a_helper_with_one_word_for_both_yeses():
    helper = {
        "key": "niece",
        "relation": "niece",
        "agreed": "day 1 09:00",
        "lives_in": True,
        "minutes_away": 0,
    }
    found = stay(learners=[helper]).chart
    assert found.consents == tuple(
        Consent("niece", whose, True, utc(12, 8)) for whose in ("person", "helper")
    )
    assert [(one.kind, one.name, one.lives_in) for one in found.learners] == [
        ("person", "", False),
        ("helper", "niece", True),
    ]


def test_care_and_rechecks():
    found = stay(
        care=[{"at": "day 1 08:00", "procedure": "change", "wear_end": "leak"}],
        rechecks=[{"at": "day 2 08:00", "procedure": "emptying", "by": "registered"}],
    ).chart
    assert found.care == (Care("stoma", "change", utc(12, 7), "care-1", "leak"),)
    assert found.rechecks == (Recheck("stoma", "emptying", "person", utc(13, 7), "recheck-1", Witness()),)


def test_a_caution_takes_its_list_and_words_from_the_policy():
    (caution,) = stay(
        cautions=[{"sign": "output-today", "at": "day 2 08:00"}], policy={"output_today": 1200}
    ).chart.cautions
    assert (caution.list, caution.key) == ("today", "caution-1")
    assert caution.words.startswith("Output 1200 mL or more")


def test_findings_totals_states_and_arrangements():
    found = stay(
        findings=[{"at": "day 2 08:00", "colour": "pink-red", "width_mm": 32, "skin": {"feet": "wet-raw"}}],
        totals=[{"until": "day 3 07:00", "ml": 1650}],
        body_events=[{"code": "rod", "began": "day 0 10:00", "ended": "day 4 10:00"}],
        arrangements=[
            {"code": "first-contact", "at": "day 3 10:00", "due_at": "day 9 10:00", "value": "call"}
        ],
    ).chart
    assert (found.findings[0].width_mm, found.findings[0].skin) == (32, (("feet", "wet-raw"),))
    assert (found.totals[0].ml, found.totals[0].until) == (1650, utc(14, 6))
    assert (found.body_events[0].began, found.body_events[0].ended) == (utc(11, 9), utc(15, 9))
    assert (found.arrangements[0].state, found.arrangements[0].due_at) == ("made", utc(20, 9))


def test_a_ward_with_its_own_shifts():
    shifts = [
        {"name": "day", "starts": "07:00", "ends": "19:00"},
        {"name": "night", "starts": "19:00", "ends": "07:00"},
    ]
    ward = stay(ward={"zone": "Europe/London", "leave_hour": 11, "shifts": shifts}).chart.ward
    assert (
        ward.shifts == (Shift("day", time(7), time(19)), Shift("night", time(19), time(7)))
        and ward.leave_hour == 11
    )


def test_it_is_judged_at_the_moment_asked_for_then_the_files_own_then_its_newest():
    kits = HEAD["kits"]
    assert stay().at == utc(11, 11)
    assert stay(at="day 1 18:00").at == utc(12, 17)
    assert read_stay({**HEAD, "kits": kits, "at": "day 1 18:00"}, "day 2 18:00").at == utc(13, 17)


def test_about_is_for_people():
    assert stay(about="An invented person.", learners=[{"key": "person", "about": "Left-handed."}]) == stay(
        learners=[]
    )


def test_a_byte_order_mark_does_no_harm(tmp_path):
    import json

    (tmp_path / "stay.json").write_text(json.dumps(HEAD), encoding="utf-8-sig")
    assert load_stay(tmp_path / "stay.json") == stay()
