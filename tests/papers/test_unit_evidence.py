"""A unit's evidence: who, what, when, by whom, the requirement in force then; kept, and printed again byte for byte."""

import uuid
from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from teaching.models import SkillVersion, StaffPaper, TrailLine
from teaching.record.kept_papers import Damaged
from teaching.record.kept_staff_papers import keep_staff_paper, reprint_staff_paper
from teaching.record.places import set_policy
from teaching.record.staff import grant_role, register_clinician, revoke_role
from teaching.record.writing import Superseded
from tests.bedside.ward import HOUSE, NIGHT
from tests.education.conftest import at_night, send, signed_in, ward  # noqa: F401
from tests.papers.reading import words

YEAR = {"first": "2025-05-13", "last": "2026-05-13"}


@pytest.fixture
def kept(ward, send):  # noqa: F811
    answer = send("edda", reverse("unit-evidence", args=[ward.unit.uid]), **YEAR)
    assert answer.status_code == 303
    return StaffPaper.objects.get()


def test_it_is_kept_with_its_content_and_who_kept_it(kept, ward):  # noqa: F811
    assert (kept.unit, kept.kind, kept.number, kept.by) == (ward.unit, "unit-evidence", 1, ward.staff["edda"].clinician)
    assert kept.content["headline"] == (
        "13 May 2025 to 13 May 2026, 5 nurses, kept Wed 13 May 2026 02:14 by Edda Marsh"
    )


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
        "what": "certificate from elsewhere", "day": "2 Feb 2026", "until": "29 Nov 2026", "by": "Linden Brook",
        "rests_on": "Made-up college, 2026; accepted 13 May 2026", "required": "R1",
    }  # fmt: skip
    assert (basil["name"], basil["state"], basil["lines"]) == ("Basil Thorne", "ready for sign-off", [])
    assert basil["so_far"].startswith("4 May 2026, with a person, Amber Oakley; 7 May 2026")
    for told in (amber["lines"][0]["until"], "Not signed then", change["count"]):
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


def test_the_last_twelve_months_stand_there_as_the_policy_has_them(ward, signed_in):  # noqa: F811
    form = signed_in("edda").get(reverse("unit-evidence", args=[ward.unit.uid])).context["form"]
    assert (str(form["first"].value()), str(form["last"].value())) == ("2025-05-13", "2026-05-13")
    set_policy(actor=HOUSE, unit=None, overrides={"sign_off_lasts": 6}, why="Made up.", effective_from=NIGHT)
    form = signed_in("edda").get(reverse("unit-evidence", args=[ward.unit.uid])).context["form"]
    assert str(form["first"].value()) == "2025-11-13"


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ({"first": "2026-05-13", "last": "2026-05-12"}, "This day is before the first one. Change one of the two."),
        ({"first": "2026-05-13", "last": "2026-05-14"}, "This day is still to come. Write today or an earlier day."),
        ({"first": "", "last": "2026-05-13"}, "Write the first day."),
        ({"first": "2025-05-13"}, "Write the last day."),
        ({"first": "soon", "last": "2026-05-13"}, "Write a day, such as 2026-03-08."),
        ({"first": "0001-01-01", "last": "2026-05-13"}, "Write a day, such as 2026-03-08."),
    ],
)
def test_a_time_that_is_none_is_said_beside_the_day_and_keeps_nothing(ward, send, days, said):  # noqa: F811
    answer = send("edda", reverse("unit-evidence", args=[ward.unit.uid]), **days)
    assert (answer.status_code, said in answer.content.decode()) == (422, True)
    assert not StaffPaper.objects.exists()


def test_one_day_is_a_time(ward, send):  # noqa: F811
    today = {"first": "2026-05-13", "last": "2026-05-13"}
    assert send("edda", reverse("unit-evidence", args=[ward.unit.uid]), **today).status_code == 303


def test_whoever_left_in_that_time_stands_in_it_and_not_in_a_later_one(ward, send):  # noqa: F811
    """Basil leaves the ward on 14 May."""
    address = reverse("unit-evidence", args=[ward.unit.uid])
    with time_machine.travel(NIGHT + timedelta(days=1), tick=False):
        revoke_role(
            actor=ward.staff["linden"], clinician=ward.staff["basil"].clinician, role="ward-nurse", unit=ward.unit
        )
    with time_machine.travel(NIGHT + timedelta(days=3), tick=False):
        for day in ("2026-05-13", "2026-05-14", "2026-05-15"):
            assert send("edda", address, first=day, last=day).status_code == 303
    papers = StaffPaper.objects.order_by("number")
    named = [{nurse["name"] for nurse in paper.content["skills"][0]["nurses"]} for paper in papers]
    assert ["Basil Thorne" in names for names in named] == [True, True, False]
    assert all("Amber Oakley" in names for names in named)


@pytest.mark.parametrize("more", [0, 3])
def test_keeping_costs_the_same_queries_for_few_nurses_and_for_more(ward, signed_in, assert_selects, more):  # noqa: F811
    for number in range(more):
        clinician = register_clinician(actor=HOUSE, name=f"Nurse {number}", grade="registered")
        grant_role(actor=HOUSE, clinician=clinician, role="ward-nurse", unit=ward.unit)
    edda, address = signed_in("edda"), reverse("unit-evidence", args=[ward.unit.uid])
    edda.get(address)
    with assert_selects(32):
        assert edda.post(address, {"form_key": str(uuid.uuid4()), **YEAR}).status_code == 303


def test_two_taps_keep_one_paper(ward, signed_in):  # noqa: F811
    edda, address, key = signed_in("edda"), reverse("unit-evidence", args=[ward.unit.uid]), str(uuid.uuid4())
    for _ in range(2):
        assert edda.post(address, {"form_key": key, **YEAR}).status_code == 303
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
