"""Two at once: one wins, the other is told so and stores nothing; and what makes a board's rows stale."""

import threading
from datetime import timedelta
from functools import partial
from uuid import uuid4

import pytest
import time_machine
from django.db import connection

from teaching.models import Account, Event, Membership, Person, StayNow, TrailLine
from teaching.record import staff
from teaching.record.checklists import publish_checklist
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.record.figures import board, standing
from teaching.record.places import change_unit, policy_for, set_policy
from teaching.record.sessions import record_session
from teaching.record.writing import Superseded
from teaching.rules.assess import assess
from tests.bedside.ward import EMPTYING, HOUSE, NIGHT, build_ward, checklist_file
from tests.record.conftest import file_database  # noqa: F401

AGAIN = 8


@pytest.fixture(autouse=True)
def at_night():
    with time_machine.travel(NIGHT, tick=False):
        yield


def entry(stay, stoma, uid, **more):
    person = stay.learners.get(kind="person")
    rated = tuple(RatingEntry(learner=person, code=code, answer="06") for code in EMPTYING)
    told = {"procedure": "emptying", "began_at": NIGHT - timedelta(hours=1), "ratings": rated, "event_uid": uid}
    return SessionEntry(stay=stay, stoma=stoma, **told | more)


def at_once(*acts):
    """Each act in a thread with a connection of its own, all let go together; what each returned or raised."""
    gate, found = threading.Barrier(len(acts)), [None] * len(acts)

    def run(place, act):
        gate.wait()
        try:
            found[place] = act()
        except Exception as raised:  # the test looks at what it was
            found[place] = raised
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=told) for told in enumerate(acts)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    return found


def test_one_event_signed_by_two_at_once_is_signed_once(file_database):  # noqa: F811
    ward = build_ward()
    stay = ward.stay()
    stoma = ward.stoma(stay)
    for _ in range(AGAIN):
        told, before = entry(stay, stoma, uuid4()), Account.objects.count()
        found = at_once(*(partial(record_session, actor=ward.staff[by], entry=told) for by in ("amber", "basil")))
        assert sorted(type(one).__name__ for one in found) == ["Account", "Superseded"], found
        assert Account.objects.count() == before + 1


def test_twenty_sessions_signed_at_once_each_move_the_revision_by_one(file_database):  # noqa: F811
    ward = build_ward()
    stay = ward.stay()
    stoma = ward.stoma(stay)
    before = StayNow.objects.get(stay=stay).revision
    told = [entry(stay, stoma, None, began_at=NIGHT - timedelta(hours=hours)) for hours in range(1, 21)]
    found = at_once(*(partial(record_session, actor=ward.staff["amber"], entry=one) for one in told))
    assert [one for one in found if not isinstance(one, Account)] == []
    kept = StayNow.objects.get(stay=stay)
    assert (kept.revision, kept.assessed_revision) == (before + 20, before + 20)


def test_a_person_admitted_by_two_at_once_is_admitted_once(file_database):  # noqa: F811
    ward = build_ward()
    for number in range(AGAIN):
        admit = partial(ward.stay, bed=f"B{number}")
        found = at_once(admit, admit)
        assert sorted(type(one).__name__ for one in found) == ["Refused", "Stay"], found
    assert Person.objects.count() == AGAIN


def test_a_role_granted_by_two_at_once_is_granted_once(file_database):  # noqa: F811
    ward = build_ward()
    basil = ward.staff["basil"].clinician
    grant = partial(staff.grant_role, actor=HOUSE, clinician=basil, role="educator", unit=ward.unit)
    found = at_once(grant, grant)
    assert sum(isinstance(one, Membership) for one in found) == 1, found


@pytest.fixture
def scene(db, at_night):
    ward = build_ward()
    stay = ward.stay()
    return ward, stay, ward.stoma(stay)


def test_the_loser_stores_nothing_and_hears_a_sentence(scene):
    ward, stay, stoma = scene
    told = entry(stay, stoma, uuid4())
    record_session(actor=ward.staff["amber"], entry=told)
    before = (Event.objects.count(), Account.objects.count(), TrailLine.objects.count(), StayNow.objects.get().revision)
    with pytest.raises(Superseded, match="Look at what stands now"):
        record_session(actor=ward.staff["basil"], entry=told)
    after = (Event.objects.count(), Account.objects.count(), TrailLine.objects.count(), StayNow.objects.get().revision)
    assert after == before


def certified(ward):
    staff.accept_certificate(
        actor=ward.staff["linden"], nurse=ward.staff["amber"].clinician, skill="change", certificate="Made up",
        unit=ward.unit, valid_from=NIGHT, valid_until=NIGHT + timedelta(days=90),
    )


def next_version(ward):
    content = checklist_file() | {"number": 2}
    change_unit(actor=ward.staff["linden"], unit=ward.unit, checklist=publish_checklist(actor=HOUSE, content=content))


LEANED_ON = {
    "a sign-off": certified,
    "a checklist": next_version,
    "a policy": lambda ward: set_policy(actor=ward.staff["linden"], unit=None, overrides={"spacing": 6}, why="Trial."),
}


@pytest.mark.parametrize("name", LEANED_ON)
def test_what_a_stay_leans_on_moves_its_revision_and_the_board_is_right_at_once(scene, name):
    ward, stay, stoma = scene
    ward.teach(stay, stoma, 30)
    elsewhere = ward.stay("Bo", "Fen", "A2", unit=ward.other)
    before, other = (StayNow.objects.get(stay=one).revision for one in (stay, elsewhere))
    LEANED_ON[name](ward)
    kept = StayNow.objects.get(stay=stay)
    assert (kept.revision, kept.assessed_revision) == (before + 1, before)
    assert StayNow.objects.get(stay=elsewhere).revision == other + (name == "a policy")
    assert board(ward.unit, NIGHT)[0].standing.startswith("Emptying: shown once")
    assert standing(stay, NIGHT).policy_version == policy_for(ward.unit, NIGHT).version


def test_a_row_is_used_until_its_moment_and_worked_out_from_it_on(scene, monkeypatch):
    """`holds_until` is the first moment at which the kept row is no more used."""
    ward, stay, stoma = scene
    ward.teach(stay, stoma, 30)
    ward.teach(stay, stoma, 6)
    until = StayNow.objects.get().holds_until
    judged = []
    monkeypatch.setattr("teaching.record.figures.assess", lambda *told: judged.append(told) or assess(*told))
    board(ward.unit, until - timedelta(microseconds=1))
    assert judged == []
    board(ward.unit, until)
    assert len(judged) == 1
