"""A kept paper is frozen: it reprints byte for byte, and is only signed on the facts it was drawn from."""

from dataclasses import replace

import pytest
import time_machine
from django.db import connection

from teaching.models import Paper, PaperFile, StayNow, TrailLine
from teaching.record.kept_papers import (
    Damaged,
    FactsMoved,
    Stands,
    changed_since,
    keep_paper,
    kept_of,
    newest_paper,
    reprint,
)
from teaching.record.refusals import Refused
from tests.bedside.ward import NIGHT, build_ward

PDF = b"%PDF-1.7 invented bytes \x00\xff"
MEANING = "This is what the record shows."


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
def drawn(ward, stay):
    """What a signing view hands over."""
    return {
        "actor": replace(ward.staff["amber"], proof="password given again"), "stay": stay, "kind": "readiness",
        "content": {"result": "not yet", "gaps": ["one more alone"]}, "pdf": PDF, "policy_version": "0" * 12,
        "revision": StayNow.objects.get(stay=stay).revision, "meaning": MEANING,
    }  # fmt: skip


def test_it_reprints_byte_for_byte_and_says_who_printed(drawn):
    paper = keep_paper(**drawn)
    assert reprint(actor=drawn["actor"], paper=paper) == PDF
    assert (paper.signed_by, paper.signed_at, paper.proof) == (
        drawn["actor"].clinician, NIGHT, "password given again")
    lines = TrailLine.objects.filter(object__contains=str(paper.uid)).values_list("verb", flat=True)
    assert sorted(lines) == ["reprint_paper", "sign_paper"]


def test_facts_that_moved_since_it_was_drawn(ward, drawn):
    ward.helper(drawn["stay"])
    with pytest.raises(FactsMoved, match="since this was drawn"):
        keep_paper(**drawn)
    assert not Paper.objects.exists() and not PaperFile.objects.exists()


def test_a_signature_needs_fresh_proof(ward, drawn):
    with pytest.raises(Refused, match="Write your password again"):
        keep_paper(**drawn | {"actor": ward.staff["amber"]})
    assert not Paper.objects.exists()


def test_a_sheet_that_nobody_signs_needs_none(ward, drawn):
    paper = keep_paper(**drawn | {"actor": ward.staff["amber"], "kind": "take-home", "meaning": ""})
    assert (paper.signed_by, paper.signed_at, paper.proof) == (None, None, "")


def test_the_newest_counts(drawn):
    first, second = keep_paper(**drawn), keep_paper(**drawn)
    assert newest_paper(drawn["stay"], "readiness") == second
    assert (first.number, second.number) == (1, 2)


@pytest.mark.parametrize(("now", "changed"), [
    ({}, False),
    ({"revision": 999}, True),
    ({"policy_version": "1" * 12}, True),
    ({"result": "self-caring"}, True),
])
def test_changed_since_is_told_by_facts_by_policy_and_by_what_the_same_facts_come_to(drawn, now, changed):
    keep_paper(**drawn)
    (row,) = kept_of(drawn["stay"])
    assert changed_since(row, replace(Stands(drawn["revision"], "0" * 12, "not yet"), **now)) is changed


def test_a_paper_that_says_no_result_is_changed_by_facts_alone(drawn):
    keep_paper(**drawn | {"kind": "take-home", "content": {"parts": []}, "meaning": ""})
    (row,) = kept_of(drawn["stay"])
    assert not changed_since(row, Stands(drawn["revision"], "another", "not yet"))
    assert changed_since(row, Stands(drawn["revision"] + 1, "another", "not yet"))


def test_touched_bytes_are_never_handed_out(drawn):
    paper = keep_paper(**drawn)
    with connection.cursor() as cursor:  # past the guards, as somebody at the disk would
        if connection.vendor == "postgresql":
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
            cursor.execute("ALTER TABLE teaching_paperfile DISABLE TRIGGER USER")
        else:
            cursor.execute("SELECT name FROM sqlite_master WHERE type='trigger' AND tbl_name='teaching_paperfile'")
            for (name,) in cursor.fetchall():
                cursor.execute(f'DROP TRIGGER "{name}"')
        cursor.execute("UPDATE teaching_paperfile SET bytes = %s", [b"%PDF other"])
    with pytest.raises(Damaged):
        reprint(actor=drawn["actor"], paper=paper)
