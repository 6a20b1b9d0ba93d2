"""A nurse's competence record: what was seen and signed, what was required then; confidence apart; nobody else's."""

from dataclasses import replace

import pytest

from teaching.papers.competence_record import competence_record
from teaching.papers.competence_record_sheets import competence_record_pdf
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.papers.skilled import AMBER, ASHBY, BASIL, EDDA, HISTORY, NOW, POLICY, SKILLS, WARD, practice


def record(nurse, **more):
    asked = {
        "nurse": nurse, "skills": SKILLS, "history": HISTORY, "policy": POLICY, "ward": WARD, "now": NOW,
        "unit": "Heron Ward (made up)", "printed_by": "Edda Marsh",
    }  # fmt: skip
    return competence_record(**asked | more)


def said(nurse):
    return " ".join(words(competence_record_pdf(record(nurse))))


@pytest.mark.parametrize("nurse", [BASIL, AMBER, ASHBY, EDDA], ids=lambda nurse: nurse.name.split()[0].lower())
def test_it_says_word_for_word_what_it_said(nurse):
    pdf = competence_record_pdf(record(nurse))
    as_golden(f"competence-record-{nurse.name.split()[0].lower()}.txt", pdf)
    assert clipped(pdf) == []
    for number, page in enumerate(words(pdf), 1):
        assert nurse.name in page and f"page {number} of" in page


def test_it_is_tagged_with_language_and_title():
    language, title, found = tagging(competence_record_pdf(record(BASIL)))
    assert (language, title) == ("en-GB", "Competence record, Basil Thorne, Wed 13 May 2026 13:40")
    assert {"/H1", "/H2", "/H3", "/Table", "/TH", "/L"} <= found


def test_each_line_names_the_requirement_in_force_then():
    """Version 0 asked for two; the policy was 12 months (C) until it was set to 24, 60 days before."""
    paper = record(BASIL)
    required, change = dict(paper.requirements), paper.skills[0]
    newest, first = change.sign_offs
    assert "version 1" in required[newest.required] and "Lasts 24 months" in required[newest.required]
    assert "version 0" in required[first.required] and "2 observed practices" in required[first.required]
    assert "Lasts 12 months" in required[first.required]
    assert {line.required for line in change.practices[-2:]} == {first.required}
    assert all(POLICY.version in required[line.required] for line in change.practices[:5])
    assert POLICY.version not in required[first.required]


def test_every_line_names_one_of_the_requirements_below():
    for nurse in (BASIL, AMBER, ASHBY):
        paper = record(nurse)
        named = {line.required for skill in paper.skills for line in (*skill.sign_offs, *skill.practices)} - {""}
        assert named == {name for name, _ in paper.requirements}


def test_a_practice_says_when_where_by_whom_and_every_level():
    line = record(BASIL).skills[0].practices[-3]
    assert (line.day, line.where, line.by) == ("3 Apr 2026", "in simulation", "Sorrel Vane")
    assert line.levels == (
        "5 in 9 of 11 rows. 4: Fills dips, centres it, presses from the stoma outward. "
        "X, not observed: Uses powder and film only where the skin needs them"
    )


def test_what_was_taken_back_stays_to_be_read_and_says_so():
    gone = record(BASIL).skills[0].practices[0]
    assert (gone.day, gone.taken_back) == ("8 May 2026", True)
    assert "Taken back: entered in error, does not count." in said(BASIL)


def test_a_sign_off_with_its_basis_a_renewal_a_certificate_and_a_withdrawal():
    change, bowel, urostomy = record(AMBER).skills
    assert [line.what for line in bowel.sign_offs] == ["renewed", "signed off"]
    assert bowel.sign_offs[0].rests_on == "23 Apr 2026, with a person, Sorrel Vane"
    (certificate,) = change.sign_offs
    assert (certificate.what, certificate.by) == ("certificate from elsewhere", "Linden Brook")
    assert certificate.rests_on == "Made-up college, 2024; accepted 21 Sep 2024"
    assert (urostomy.state, urostomy.sign_offs[0].what) == ("withdrawn", "withdrawn")
    assert urostomy.sign_offs[0].rests_on == "why: two leaks after teaching"


def test_confidence_stands_apart_and_labelled_and_moves_nothing():
    text = said(BASIL)
    before, after = text.split("How sure the nurse feels")
    assert "of 6" not in before
    assert "It is never read as something that was seen." in after and "Do a change: 5 of 6, said 9 May 2026" in after
    unsure = replace(BASIL, self_ratings=())
    assert record(unsure).skills == record(BASIL).skills


def test_nobody_in_care_is_named_and_nobody_ranked():
    """The assessor's free words stay on the nurse's own page: in them somebody might be named after all."""
    text = said(BASIL)
    assert "Someone" not in text and "sore" not in text
    for other in ("Ashby", "Linden", "best", "rank", "average", "percent", "%"):
        assert other not in text


def test_a_grade_of_which_nothing_is_asked():
    assert "No skill is asked of this grade here." in said(EDDA)
    assert [skill.title for skill in record(ASHBY).skills] == ["Do a change"]


def test_fifty_practices_run_over_pages_and_nothing_is_lost():
    many = replace(BASIL, practices=tuple(replace(practice(n), key=f"p{n}") for n in range(1, 51)), sign_offs=())
    pdf = competence_record_pdf(record(many))
    assert clipped(pdf) == [] and " ".join(words(pdf)).count("5 in all 11 rows") == 50
