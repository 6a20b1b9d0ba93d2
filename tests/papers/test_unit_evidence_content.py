"""What a unit's evidence says: who, what, when, by whom and the requirement then, by name and never by rank."""

import json
from dataclasses import replace
from datetime import date, datetime, timedelta
from time import perf_counter
from zoneinfo import ZoneInfo

import pytest

from teaching.papers.unit_evidence import unit_evidence
from teaching.papers.unit_evidence_sheets import unit_evidence_pdf
from teaching.rules.competence_facts import SignOff
from teaching.rules.ward import Ward
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.papers.skilled import BASIL, FIRST, HISTORY, NOW, NURSES, POLICY, WARD

SECONDS = 30  # for 120 nurses on a slow machine; common practice, no source


def evidence(nurses=NURSES, first=date(2024, 5, 13), last=date(2026, 5, 13), history=HISTORY, ward=WARD):
    return unit_evidence(
        nurses=nurses, history=history, ward=ward, first=first, last=last, now=NOW, unit="Heron Ward (made up)",
        printed_by="Edda Marsh",
    )  # fmt: skip


@pytest.fixture(scope="module")
def printed():
    return unit_evidence_pdf(evidence())


def test_it_says_word_for_word_what_it_said(printed):
    as_golden("unit-evidence.txt", printed)
    assert clipped(printed) == []
    for page in words(printed):
        assert "Evidence of nurses' competence, Heron Ward (made up), 13 May 2024 to 13 May 2026." in page
        assert "Printed and kept Wed 13 May 2026 13:40" in page


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
        "Asked of 3 nurses; 2 signed off on 13 May 2026.",
        "Asked of 2 nurses; 1 signed off on 13 May 2026.",
        "Asked of 2 nurses; 0 signed off on 13 May 2026.",
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


def days(first, last, nurses=NURSES, **more):
    """{(nurse, day given)} of the sign-offs for a change that stand in a time."""
    paper = evidence(nurses, date.fromisoformat(first), date.fromisoformat(last), **more)
    return {(nurse.name.split()[0], line.day) for nurse in paper.skills[0].nurses for line in nurse.lines}


def test_a_time_holds_every_sign_off_that_ran_in_it_and_no_other():
    """Basil's ran from 20 Dec 2024 to 20 Dec 2025 and from 5 May 2026; Amber's certificate from 20 Sep 2024."""
    assert days("2025-01-01", "2025-12-31") == {("Basil", "20 Dec 2024"), ("Amber", "20 Sep 2024")}
    assert days("2026-01-01", "2026-05-04") == {("Amber", "20 Sep 2024")}
    assert days("2026-05-05", "2026-05-05") == {("Basil", "5 May 2026"), ("Amber", "20 Sep 2024")}


@pytest.mark.parametrize("zone", ["UTC", "America/New_York", "Pacific/Auckland"])
def test_both_days_are_whole_on_the_wards_own_clock(zone):
    """1 April to 25 October 2026: in Auckland the clocks go back on 5 April and forward on 27 September."""
    ward, here = Ward(zone), ZoneInfo(zone)

    def nurse(name, since, until):
        given = SignOff("change", 1, since, until, "granted", "Sorrel Vane", "", "Made-up college")
        return replace(BASIL, name=name, sign_offs=(given,))

    first, last = datetime(2026, 4, 1, tzinfo=here), datetime(2026, 4, 6, 23, 59, 59, 999999, tzinfo=here)
    instant, long = timedelta(microseconds=1), timedelta(days=90)
    nurses = [
        nurse("Ends-before", first - long, first - instant), nurse("Ends-first", first - long, first),
        nurse("Begins-last", last, last + long), nurse("Begins-after", last + instant, last + long),
    ]  # fmt: skip
    history = replace(HISTORY, signed_by={})
    found = {name for name, _ in days("2026-04-01", "2026-04-06", nurses, history=history, ward=ward)}
    assert found == {"Ends-first", "Begins-last"}


def test_an_earlier_time_is_judged_by_what_was_in_force_at_its_end():
    """Version 0 and the 12 months of then; Basil's first sign-off had run out and his second was not yet given."""
    paper = evidence(first=date(2025, 12, 21), last=date(2025, 12, 31))
    basil = paper.skills[0].nurses[2]
    assert (paper.policy, paper.at_end, basil.lines, basil.state) == (FIRST.version, "31 Dec 2025", (), "lapsed")
    assert "version 0" in dict(paper.requirements)[basil.required]
    assert paper.skills[0].count == "Asked of 3 nurses; 1 signed off on 31 Dec 2025."


def test_a_withdrawal_stands_in_the_time_it_was_made():
    def withdrawn(first, last):
        lines = evidence(first=first, last=last).skills[2].nurses[0].lines
        return [line.what for line in lines]

    assert withdrawn(date(2026, 4, 13), date(2026, 4, 13)) == ["withdrawn", "signed off"]
    assert withdrawn(date(2026, 4, 14), date(2026, 5, 13)) == []


def test_before_any_version_was_published_there_is_nothing_to_show():
    assert evidence(first=date(2020, 1, 1), last=date(2020, 12, 31)).skills == ()


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
