"""A unit's evidence: who, what, when, by whom, the requirement in force then; kept, and printed again byte for byte."""

import uuid

import pytest
from django.urls import reverse

from teaching.models import SkillVersion, StaffPaper, TrailLine
from teaching.record.kept_papers import Damaged
from teaching.record.kept_staff_papers import keep_staff_paper, reprint_staff_paper
from teaching.record.writing import Superseded
from tests.education.conftest import at_night, send, signed_in, ward  # noqa: F401
from tests.papers.reading import words


@pytest.fixture
def kept(ward, send):  # noqa: F811
    answer = send("edda", reverse("unit-evidence", args=[ward.unit.uid]))
    assert answer.status_code == 303
    return StaffPaper.objects.get()


def test_it_is_kept_with_its_content_and_who_kept_it(kept, ward):  # noqa: F811
    assert (kept.unit, kept.kind, kept.number, kept.by) == (ward.unit, "unit-evidence", 1, ward.staff["edda"].clinician)
    assert kept.content["headline"] == "Wed 13 May 2026 02:14, 5 nurses, kept by Edda Marsh"


def test_it_prints_again_byte_for_byte_whatever_happened_since(kept, ward, signed_in):  # noqa: F811
    edda, address = signed_in("edda"), reverse("kept-staff-paper", args=[kept.uid])
    first = edda.get(address)
    version = SkillVersion.objects.get(skill="change")
    SkillVersion.objects.create(
        skill="change", number=2, sha256="0" * 64, content=version.content, published_at=ward.now)
    assert first.content == edda.get(address).content == bytes(kept.bytes)
    assert (first["Content-Type"], first["Cache-Control"]) == ("application/pdf", "no-store")
    assert "unit-evidence.pdf" in first["Content-Disposition"]


def test_each_print_leaves_a_line_without_a_name(kept, signed_in):  # noqa: F811
    signed_in("edda").get(reverse("kept-staff-paper", args=[kept.uid]))
    lines = list(TrailLine.objects.filter(object__contains=str(kept.uid)).values_list("verb", "outcome"))
    assert ("keep_staff_paper", "done") in lines
    assert ("reprint_staff_paper", "done") in lines and ("print_evidence", "read") in lines
    assert "Basil" not in str(TrailLine.objects.values_list("object", flat=True))


def test_the_paper_says_what_the_record_says(kept):
    said = " ".join(words(bytes(kept.bytes)))
    assert "HR.01.06.01" in said and "check the edition in force" in said
    change = kept.content["skills"][0]
    amber, _, basil, *_ = (nurse for nurse in change["nurses"] if nurse["name"] != "Edda Marsh")
    assert amber["lines"][0] == {
        "what": "accepted from elsewhere", "day": "2 Feb 2026", "until": "29 Nov 2026", "by": "Linden Brook",
        "rests_on": "Made-up college, 2026", "required": "R1",
    }  # fmt: skip
    assert (basil["name"], basil["state"], basil["lines"]) == ("Basil Thorne", "ready for sign-off", [])
    assert basil["so_far"].startswith("4 May 2026, with a person, Amber Oakley; 7 May 2026")
    for told in (amber["lines"][0]["until"], "Not signed yet", change["count"]):
        assert told in said


def test_facts_that_moved_while_it_was_drawn_keep_nothing(ward):  # noqa: F811
    with pytest.raises(Superseded, match="after this was drawn"):
        keep_staff_paper(
            actor=ward.staff["edda"], unit=ward.unit, kind="unit-evidence", content={"a": 1}, pdf=b"%PDF-",
            still=lambda: {"a": 2},
        )  # fmt: skip
    assert not StaffPaper.objects.exists()


def test_touched_bytes_are_never_handed_out(kept, ward):  # noqa: F811
    kept.bytes = b"%PDF-other"
    with pytest.raises(Damaged):
        reprint_staff_paper(actor=ward.staff["edda"], paper=kept)


def test_two_taps_keep_one_paper(ward, signed_in):  # noqa: F811
    edda, address, key = signed_in("edda"), reverse("unit-evidence", args=[ward.unit.uid]), str(uuid.uuid4())
    for _ in range(2):
        assert edda.post(address, {"form_key": key}).status_code == 303
    assert StaffPaper.objects.count() == 1


@pytest.mark.parametrize(("who", "status"), [("edda", 200), ("linden", 200), ("amber", 403), ("sorrel", 403),
                                             ("wilma", 404)])  # fmt: skip
def test_for_educators_and_leads_alone(kept, ward, signed_in, who, status):  # noqa: F811
    for address in (reverse("unit-evidence", args=[ward.unit.uid]), reverse("kept-staff-paper", args=[kept.uid])):
        assert signed_in(who).get(address).status_code == status


def test_the_way_there_is_shown_to_whoever_may_go(ward, signed_in):  # noqa: F811
    grid = reverse("nurses-by-skill", args=[ward.unit.uid])
    address = reverse("unit-evidence", args=[ward.unit.uid]).encode()
    assert address in signed_in("edda").get(grid).content
    assert address not in signed_in("sorrel").get(grid).content
