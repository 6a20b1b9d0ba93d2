"""The addresses of handing over: for nurses and planners, straight into the browser, a line in the trail each."""

from dataclasses import replace
from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.models import StayNow, TrailLine
from teaching.record import outlook
from teaching.record.corrections import retract_account
from teaching.record.drafts import begin_draft
from teaching.record.handing_over import known_of, known_on
from teaching.record.places import change_unit
from teaching.record.stays import note_stay_event, plan_home
from tests.bedside.conftest import ada, at_night, signed_in, stoma, ward  # noqa: F401
from tests.bedside.ward import NIGHT
from tests.papers.reading import words

PAPERS = ("handover-paper", "shift-handover", "transfer-form", "blank-session")


@pytest.fixture
def addresses(ward, ada):  # noqa: F811
    return {
        "handover-paper": reverse("handover-paper", args=[ada.uid]),
        "shift-handover": reverse("shift-handover", args=[ward.unit.uid]),
        "transfer-form": reverse("transfer-form", args=[ada.uid]),
        "blank-session": reverse("blank-session", args=[ward.unit.uid, "bowel"]),
    }


@pytest.mark.parametrize("name", PAPERS)
def test_a_nurse_gets_a_pdf_that_no_cache_keeps_and_no_name_is_in_it(signed_in, addresses, stoma, name):  # noqa: F811
    answer = signed_in("amber").get(addresses[name])
    assert (answer.status_code, answer["Content-Type"], answer["Cache-Control"]) == (200, "application/pdf", "no-store")
    assert answer.content.startswith(b"%PDF")
    assert "Fernhollow" not in answer["Content-Disposition"] + addresses[name]


@pytest.mark.parametrize("name", PAPERS)
def test_each_print_leaves_a_line_in_the_trail(signed_in, addresses, ward, ada, stoma, name):  # noqa: F811
    signed_in("amber").get(addresses[name])
    line = TrailLine.objects.latest("id")
    about = str(ada.uid) if name in ("handover-paper", "transfer-form") else ""
    assert (line.verb, line.outcome, line.unit, line.stay) == ("print_handover", "read", str(ward.unit.uid), about)


@pytest.mark.parametrize(("who", "status"), [("ashby", 403), ("tansy", 403), ("edda", 403), ("wilma", 404)])
def test_a_lesser_role_is_refused_and_a_stranger_finds_nothing(signed_in, addresses, who, status):  # noqa: F811
    assert {signed_in(who).get(address).status_code for address in addresses.values()} == {status}


def test_it_says_what_the_record_says(ward, ada, stoma, signed_in, addresses):  # noqa: F811
    ward.teach(ada, stoma, 9)
    (said,) = words(signed_in("amber").get(addresses["handover-paper"]).content)
    assert "Ada Fernhollow" in said and "number 000-A1" in said
    assert "Emptying: none of 5 steps held yet. Last seen yesterday 17:14 by Amber Oakley." in said
    assert "Printed Wed 13 May 2026 02:14 by Amber Oakley" in said


def test_a_draft_is_named_and_not_counted(ward, ada, stoma, signed_in, addresses):  # noqa: F811
    begin_draft(actor=ward.staff["basil"], stay=ada, stoma=stoma, procedure="emptying")
    (said,) = words(signed_in("amber").get(addresses["handover-paper"]).content)
    assert "Draft: begun today 02:14 by Basil Thorne, not signed. It is not counted here." in said


def test_everybody_on_the_unit_by_bed_two_before_ten(ward, ada, stoma, signed_in, addresses):  # noqa: F811
    ward.stay("Cora", "Larkmead", "A10")
    ward.stay("Bram", "Quillfeather", "A2")
    ward.stay("Wren", "Other", "W1", unit=ward.other)
    index, *pages = words(signed_in("amber").get(addresses["shift-handover"]).content)
    assert [page.split(" Handover,")[0] for page in pages] == ["Ada Fernhollow", "Bram Quillfeather", "Cora Larkmead"]
    assert "3 people" in index and "Wren Other" not in index


@pytest.mark.parametrize("people", [1, 3])
def test_a_shift_costs_the_same_queries_for_one_and_for_three(people, ward, ada, stoma, assert_selects):  # noqa: F811
    for number in range(people - 1):
        ward.stoma(ward.stay("Given", f"Family{number}", f"B{number}"))
    with assert_selects(14):
        assert len(known_on(ward.unit, NIGHT)) == people


def test_no_other_blank_form_exists(signed_in, ward):  # noqa: F811
    assert signed_in("amber").get(reverse("blank-session", args=[ward.unit.uid, "knee"])).status_code == 404


def test_phones_of_the_unit_are_on_the_paper(ward, ada, stoma, signed_in, addresses):  # noqa: F811
    phones = [{"label": "Ward (made up)", "number": "00000 000 200", "hours": "always"}]
    change_unit(actor=ward.staff["linden"], unit=ward.unit, phones=phones)
    for name in ("handover-paper", "transfer-form"):
        said = " ".join(words(signed_in("amber").get(addresses[name]).content))
        assert "Ward (made up)" in said and "00000 000 200" in said


def test_an_entry_taken_back_is_said_as_amended_and_counts_no_more(ward, ada, stoma, signed_in, addresses):  # noqa: F811
    account = ward.teach(ada, stoma, 9)
    actor = replace(ward.staff["amber"], proof="password given again")
    retract_account(actor=actor, account=account, reason="the wrong person")
    (said,) = words(signed_in("amber").get(addresses["handover-paper"]).content)
    assert "Amended: an entry was last corrected or taken back today 02:14." in said
    assert "Not begun: nothing yet of pouch change, emptying, topics." in said


def test_readiness_stands_with_what_is_in_the_way(ward, ada, stoma):  # noqa: F811
    said = known_of(ada, NIGHT).handover.text
    assert "Readiness: not yet. " in said and " more. " in said


@pytest.fixture
def leaving(ward, ada, stoma):  # noqa: F811
    """Shown once, leaving on Friday: something is left to plan."""
    ward.teach(ada, stoma, 9)
    plan_home(actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(days=2))
    return ada


def test_the_plan_stands_on_screen_on_paper_and_in_the_text_and_is_kept(leaving, ward, signed_in, addresses):  # noqa: F811
    amber = signed_in("amber")
    screen = amber.get(reverse("handover", args=[leaving.uid])).content.decode()
    said = StayNow.objects.get(stay=leaving).outlook["plan"]
    assert said.startswith("No result can be reached by Fri 15 May 02:14")
    assert screen.count(said) == 2  # in its line, and in the text to copy
    (paper,) = words(amber.get(addresses["handover-paper"]).content)
    assert f"Plan: {said}" in paper
    assert f"Plan: {said}" in known_of(leaving, NIGHT).handover.text


def test_a_whole_shift_prints_the_plans_that_are_kept_and_works_none_out(
    leaving, ward, signed_in, addresses, monkeypatch  # noqa: F811
):
    ward.stoma(ward.stay("Bram", "Quillfeather", "A2"))
    known_of(leaving, NIGHT, plan_anew=True)
    monkeypatch.setattr(outlook, "outlook", None)
    _, ada_page, bram = words(signed_in("amber").get(addresses["shift-handover"]).content)
    assert f"Plan: {StayNow.objects.get(stay=leaving).outlook['plan']}" in ada_page
    assert "Plan:" not in bram


def test_a_plan_that_no_longer_holds_is_not_printed(leaving, ward, stoma):  # noqa: F811
    known_of(leaving, NIGHT, plan_anew=True)
    assert known_of(leaving, NIGHT).beside.plan
    ward.teach(leaving, stoma, 1)
    assert not known_of(leaving, NIGHT).beside.plan
    assert known_of(leaving, NIGHT, plan_anew=True).beside.plan


def test_paused_has_no_plan(leaving, ward):  # noqa: F811
    note_stay_event(actor=ward.staff["amber"], stay=leaving, kind="paused", why="intensive care")
    assert not known_of(leaving, NIGHT, plan_anew=True).beside.plan
