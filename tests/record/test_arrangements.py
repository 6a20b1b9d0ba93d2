"""Arrangements, visits and teaching booked: what is refused, in which words, and that the newest of a key counts."""

from datetime import timedelta

import pytest
import time_machine

from teaching.models import AfterHome, Arrangement
from teaching.record.after_home import record_after_home
from teaching.record.arrangements import arrange_visit, book_teaching, make_arrangement
from teaching.record.charts import chart_for
from teaching.record.refusals import Refused
from teaching.record.staff import accept_certificate
from teaching.record.stays import note_stay_event
from tests.bedside.ward import NIGHT, build_ward

HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def ward(db):
    with time_machine.travel(NIGHT, tick=False):
        yield build_ward()


@pytest.fixture
def stay(ward):
    made = ward.stay()
    ward.stoma(made)
    return made


@pytest.fixture
def actor(ward):
    return ward.staff["amber"]


def refused(act, **told):
    before = Arrangement.objects.count()
    with pytest.raises(Refused) as found:
        act(**told)
    assert Arrangement.objects.count() == before
    return {fault.field: fault.sentence for fault in found.value.faults}


def test_details_are_kept_and_the_newest_wins(stay, actor):
    kit = {"days": 14, "codes": "as on the kit card", "approved": True}
    make_arrangement(actor=actor, stay=stay, code="supplies", state="asked", details=kit | {"days": 7})
    make_arrangement(actor=actor, stay=stay, code="supplies", state="made", details=kit)
    (found,) = chart_for(stay).arrangements
    assert found.state == "made"
    assert [found.detail(name) for name in ("days", "approved", "size")] == [14, True, None]


def test_supplies_are_never_less_than_none(stay, actor):
    told = refused(make_arrangement, actor=actor, stay=stay, code="supplies", state="made", details={"days": -3})
    assert told == {"days": "-3 is less than none; write 0 or more."}


def test_a_visit_before_leaving_is_asked_about_and_not_dropped(stay, actor):
    early = {"actor": actor, "stay": stay, "at": NIGHT + DAY, "state": "made", "accepted_by": "Nurse Invented"}
    assert "before the planned leaving" in refused(arrange_visit, **early)["at"]
    arrange_visit(**early, meant_so=True)
    (visit,) = chart_for(stay).visits
    assert (visit.at, visit.accepted_by) == (NIGHT + DAY, "Nurse Invented")


def test_nobody_accepted_it(stay, actor):
    told = refused(arrange_visit, actor=actor, stay=stay, at=NIGHT + 4 * DAY, state="made", for_change=True)
    assert "Say who accepted the visit" in told["accepted_by"]


def test_one_visit_moves_and_another_stands_beside_it(stay, actor):
    first = arrange_visit(actor=actor, stay=stay, at=NIGHT + 4 * DAY, for_change=True)
    arrange_visit(actor=actor, stay=stay, at=NIGHT + 6 * DAY)
    arrange_visit(actor=actor, stay=stay, at=NIGHT + 3 * DAY, for_change=True, key=first.key)
    assert sorted((visit.at, visit.for_change) for visit in chart_for(stay).visits) == [
        (NIGHT + 3 * DAY, True), (NIGHT + 6 * DAY, False),
    ]  # fmt: skip


def test_facility_and_home_at_once(stay, actor):
    told = refused(make_arrangement, actor=actor, stay=stay, code="facility", state="made")
    assert "The planned leaving is to home" in told["state"]


def test_a_key_of_another_stay(ward, stay, actor):
    other = ward.stay("Bo", "Fen", "A2")
    key = arrange_visit(actor=actor, stay=other, at=NIGHT + 4 * DAY).key
    assert "belongs to another stay" in refused(
        arrange_visit, actor=actor, stay=stay, at=NIGHT + 4 * DAY, key=key)["key"]


@pytest.mark.parametrize(("field", "more", "words"), [
    ("learners", {"learners": []}, "Say who is to learn"),
    ("at", {"at": NIGHT - DAY}, "already past"),
    ("why", {"at": NIGHT - DAY, "state": "missed"}, "Say why it was missed"),
    ("procedure", {"procedure": "chagne"}, "did you mean change?"),
])
def test_teaching_refused(stay, actor, field, more, words):
    told = {"actor": actor, "stay": stay, "at": NIGHT + DAY, "learners": [stay.learners.get(kind="person")]}
    assert words in refused(book_teaching, **told | more)[field]


def test_teaching_booked_and_missed(stay, actor):
    person = stay.learners.get(kind="person")
    told = {"actor": actor, "stay": stay, "at": NIGHT + DAY, "learners": [person]}
    booked = book_teaching(**told, aim="shut first, alone", may_teach=True)
    with time_machine.travel(NIGHT + 2 * DAY, tick=False):
        book_teaching(**told, key=booked.key, state="missed", why="in theatre again")
    (found,) = chart_for(stay).appointments
    assert (found.state, found.why, found.learners) == ("missed", "in theatre again", (str(person.uid),))
    (as_it_was,) = chart_for(stay, as_known_at=NIGHT + HOUR).appointments
    assert (as_it_was.state, as_it_was.aim, as_it_was.may_teach) == ("booked", "shut first, alone", True)


@pytest.fixture
def gone_home(stay, actor):
    note_stay_event(actor=actor, stay=stay, kind="left", left_to="home", at=NIGHT)
    return stay


def test_a_call_after_leaving(gone_home, actor):
    made = record_after_home(actor=actor, stay=gone_home, kind="reached", at=NIGHT, told={"leak": "one", "mood": "low"})
    assert AfterHome.objects.get().told == made.told == {"leak": "one", "mood": "low"}


@pytest.mark.parametrize(("field", "told", "words"), [
    ("told", {"kind": "no-answer", "told": {"leak": "one"}}, "Nobody answered"),
    ("leak", {"kind": "reached", "told": {"leak": "nnoe"}}, "did you mean none?"),
    ("told", {"kind": "reached", "told": {"laek": "one"}}, "did you mean leak?"),
    ("words", {"kind": "came-back"}, "Why they came back is missing"),
    ("at", {"kind": "reached", "at": NIGHT + DAY}, "still to come"),
])
def test_a_call_refused(gone_home, actor, field, told, words):
    with pytest.raises(Refused) as found:
        record_after_home(**{"actor": actor, "stay": gone_home, "at": NIGHT} | told)
    assert words in {fault.field: fault.sentence for fault in found.value.faults}[field]
    assert not AfterHome.objects.exists()


def test_no_call_before_leaving(stay, actor):
    with pytest.raises(Refused, match="has not left yet"):
        record_after_home(actor=actor, stay=stay, kind="reached", at=NIGHT)


def test_who_may_teach_is_read_from_the_sign_offs_for_that_time(ward, stay, actor):
    told = {"actor": actor, "stay": stay, "learners": [stay.learners.get(kind="person")]}
    basil = ward.staff["basil"].clinician
    accept_certificate(
        actor=ward.staff["linden"], nurse=basil, skill="teach-bowel", certificate="made up", unit=ward.unit,
        valid_from=NIGHT - DAY, valid_until=NIGHT + 2 * DAY,
    )  # fmt: skip
    book_teaching(**told, at=NIGHT + DAY, teacher=basil)
    book_teaching(**told, at=NIGHT + 3 * DAY, teacher=basil)
    book_teaching(**told, at=NIGHT + 4 * DAY)
    found = sorted(chart_for(stay).appointments, key=lambda one: one.at)
    assert [one.may_teach for one in found] == [True, False, None]
