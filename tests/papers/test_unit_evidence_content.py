"""What a unit's evidence says: who, what, when, by whom and the requirement then, by name and never by rank."""

import json
from dataclasses import replace
from time import perf_counter

import pytest

from teaching.papers.unit_evidence import unit_evidence
from teaching.papers.unit_evidence_sheets import unit_evidence_pdf
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.papers.skilled import HISTORY, NOW, NURSES, POLICY, SKILLS, WARD

SECONDS = 30  # for 120 nurses on a slow machine; common practice, no source


def evidence(nurses=NURSES):
    return unit_evidence(
        nurses=nurses, skills=SKILLS, history=HISTORY, policy=POLICY, ward=WARD, now=NOW,
        unit="Heron Ward (made up)", printed_by="Edda Marsh",
    )  # fmt: skip


@pytest.fixture(scope="module")
def printed():
    return unit_evidence_pdf(evidence())


def test_it_says_word_for_word_what_it_said(printed):
    as_golden("unit-evidence.txt", printed)
    assert clipped(printed) == []
    for page in words(printed):
        assert "Evidence of nurses' competence, Heron Ward (made up). Printed and kept Wed 13 May 2026 13:40" in page


def test_it_is_tagged_with_language_and_title(printed):
    language, title, found = tagging(printed)
    assert language == "en-GB"
    assert title == "Evidence of nurses' competence, Heron Ward (made up), Wed 13 May 2026 13:40"
    assert {"/H1", "/H2", "/Table", "/TH"} <= found


def test_the_published_reason_is_named_and_says_to_check_the_edition():
    """Joint Commission HR.01.06.01, from slides of 2010: the edition in force is for the hospital to check."""
    reason = evidence().reason
    assert "at least every three years" in reason and "HR.01.06.01" in reason and "check the edition in force" in reason


def test_counts_come_before_names():
    assert [skill.count for skill in evidence().skills] == [
        "Asked of 3 nurses; 2 signed off now.",
        "Asked of 2 nurses; 1 signed off now.",
        "Asked of 2 nurses; 0 signed off now.",
    ]


def test_nurses_stand_by_name_whatever_they_hold():
    for order in (NURSES, NURSES[::-1]):
        named = [nurse.name for nurse in evidence(order).skills[0].nurses]
        assert named == ["Amber Oakley", "Ashby Crane-Featherstonehaugh-Nightingale", "Basil Thorne"]


def test_every_sign_off_ever_given_stands_with_its_requirement_then():
    paper = evidence()
    basil = paper.skills[0].nurses[2]
    newest, first = basil.lines
    required = dict(paper.requirements)
    assert (newest.what, newest.by) == ("signed off", "Sorrel Vane")
    assert (newest.day, newest.until) == ("5 May 2026", "4 May 2028")
    assert "version 1" in required[newest.required] and "Lasts 24 months" in required[newest.required]
    assert "version 0" in required[first.required] and "Lasts 12 months" in required[first.required]


def test_who_is_not_signed_yet_stands_with_what_was_seen_and_what_is_required_now():
    ashby = evidence().skills[0].nurses[1]
    assert (ashby.state, ashby.lines) == ("practising", ())
    assert ashby.so_far == "7 May 2026, with a person, Sorrel Vane"
    assert "version 1" in dict(evidence().requirements)[ashby.required]


def test_no_person_in_care_no_confidence_and_no_free_words(printed):
    said = " ".join(words(printed))
    for word in ("Someone", "sore", "of 6", "sure", "%"):
        assert word not in said


def test_what_is_kept_beside_the_bytes_says_the_same():
    plain = json.loads(json.dumps(evidence().plain))
    assert plain["skills"][0]["nurses"][2]["lines"][0]["by"] == "Sorrel Vane"
    assert plain["requirements"] and plain["policy"] == POLICY.version


def test_120_nurses_are_drawn_within_seconds_and_nobody_is_lost():
    many = [replace(NURSES[number % 3], name=f"Nurse {number:03}") for number in range(120)]
    began = perf_counter()
    pdf = unit_evidence_pdf(evidence(many))
    assert perf_counter() - began < SECONDS
    said = " ".join(words(pdf))
    assert all(nurse.name in said for nurse in many)
