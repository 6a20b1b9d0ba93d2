"""Queries put into SQL once: each asking gets the rows of its own keys, and PostgreSQL keeps its plan of them."""

import pytest
import time_machine
from django.db import connection

from teaching.models import Draft, Learner
from teaching.record.drafts import begin_draft, drop_draft
from teaching.record.prepared import read
from tests.bedside.ward import NIGHT, build_ward

NAMED = ("uid", "name")


@pytest.fixture
def ward(db):
    with time_machine.travel(NIGHT, tick=True):
        yield build_ward()


def plans_of(table):
    """How many plans of a SELECT from this table the database keeps for this connection."""
    if connection.vendor != "postgresql":
        return 0
    with connection.cursor() as cursor:
        cursor.execute("SELECT count(*) FROM pg_prepared_statements WHERE statement LIKE %s", [f'%FROM "{table}"%'])
        return cursor.fetchone()[0]


def test_every_asking_gets_the_rows_of_its_own_keys(ward):
    stays = [ward.stay("Ada", "Fernhollow", "A1"), ward.stay("Bram", "Quillfeather", "A2")]
    for _ in range(4):  # the database plans by itself, then keeps the plan
        for stay in stays:
            found = read(Learner, NAMED, "stay_id", [stay.pk])
            assert [row.uid for row in found] == list(stay.learners.values_list("uid", flat=True))
    assert (plans_of("teaching_learner") > 0) is (connection.vendor == "postgresql")


def test_a_word_that_a_column_must_hold_is_asked_for_beside_the_keys(ward):
    stay = ward.stay("Ada", "Fernhollow", "A1")
    stoma, actor = ward.stoma(stay), ward.staff["amber"]
    dropped, kept = [
        begin_draft(actor=actor, stay=stay, stoma=stoma, procedure=procedure) for procedure in ("change", "emptying")
    ]
    drop_draft(actor=actor, draft=dropped)
    for state, expected in {"open": kept, "dropped": dropped, "signed": None}.items():
        found = read(Draft, ("pk",), "stay_id", [stay.pk], state=state)
        assert [row.pk for row in found] == ([expected.pk] if expected else [])
