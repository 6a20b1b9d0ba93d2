"""Two nurses rate one event, each alone: the pairs that agreement is worked out from."""

from dataclasses import replace
from datetime import timedelta

import pytest
import time_machine

from teaching.record.beside import rate_beside
from teaching.record.corrections import retract_account
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.record.paired import paired_ratings, rated_with_a_holder
from tests.bedside.ward import EMPTYING, HOUSE, NIGHT, build_ward
from tests.skills import certify, publish


@pytest.fixture
def ward(db):
    with time_machine.travel(NIGHT, tick=False):
        yield build_ward()


def session(ward):
    stay = ward.stay()
    return stay, ward.teach(stay, ward.stoma(stay), 3, ["06", "04", "06", "03", None])


def beside(ward, stay, account, levels, **rating):
    person = stay.learners.get(kind="person")
    told = [RatingEntry(learner=person, code=code, answer=level, **rating)
            for code, level in zip(EMPTYING, levels, strict=True) if level]
    entry = SessionEntry(
        stay=stay, stoma=account.event.stoma, procedure="emptying", began_at=NIGHT - timedelta(hours=3),
        ratings=tuple(told),
    )  # fmt: skip
    return rate_beside(actor=ward.staff["basil"], event=account.event, entry=entry)


def test_rows_that_both_rated(ward):
    stay, account = session(ward)
    beside(ward, stay, account, ["06", "05", None, "04", "06"])
    assert paired_ratings(ward.unit) == {
        str(account.event.uid): [("em-close", "03", "04"), ("em-open", "04", "05"), ("em-when", "06", "06")]
    }
    assert paired_ratings(ward.other) == {}


def test_a_session_rated_by_one_is_no_pair(ward):
    session(ward)
    assert paired_ratings(ward.unit) == {}


def test_what_was_only_reported_is_left_out(ward):
    stay, account = session(ward)
    beside(ward, stay, account, ["06", None, None, None, None], reported=True)
    assert paired_ratings(ward.unit) == {}


def test_entered_in_error_is_left_out(ward):
    stay, account = session(ward)
    made = beside(ward, stay, account, ["06", "05", None, "04", "06"])
    actor = replace(ward.staff["basil"], proof="password given again")
    retract_account(actor=actor, account=made, reason="another person's session")
    assert paired_ratings(ward.unit) == {}


def test_two_queries_however_many(ward, django_assert_num_queries):
    stay, account = session(ward)
    beside(ward, stay, account, ["06", "05", None, "04", "06"])
    for bed in ("B1", "B2"):
        other = ward.stay("Cy", "Ash", bed)
        told = ward.teach(other, ward.stoma(other), 3, ["06", "04", "06", "03", None])
        beside(ward, other, told, ["06", "05", None, "04", "06"])
    with django_assert_num_queries(2):
        assert len(paired_ratings(ward.unit)) == 3


def test_rated_with_somebody_signed_off_then_is_the_nurses_own(ward, django_assert_num_queries):
    publish(HOUSE)
    basil = ward.staff["basil"].clinician.pk
    stay, account = session(ward)
    beside(ward, stay, account, ["06", "05", None, "04", "06"])
    assert rated_with_a_holder(basil) == [], "who taught was not signed off then"
    certify(ward.staff["linden"], ward.staff["amber"], "teach-bowel")
    other = ward.stay("Cy", "Ash", "B1")
    held = ward.teach(other, ward.stoma(other), 2, ["06", "04", "06", "03", None])
    beside(ward, other, held, ["06", "05", None, "04", "06"])
    with django_assert_num_queries(2):
        own = rated_with_a_holder(basil)
    began = NIGHT - timedelta(hours=3)  # as Basil has it
    assert own == [(began, [("em-close", "03", "04"), ("em-open", "04", "05"), ("em-when", "06", "06")])]
    assert rated_with_a_holder(ward.staff["amber"].clinician.pk) == [], "a learner's own, not the holder's"
