"""The handover on screen: four parts to read aloud, a text to copy, what may be printed from here."""

import pytest
from django.urls import reverse

from teaching.models import TrailLine
from tests.bedside.reading import words


@pytest.fixture
def opened(ada, amber):
    return lambda: amber.get(reverse("handover", args=[ada.uid]))


def test_the_four_parts_stand_in_order_under_name_and_number(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 9, ["06", "06", "06", "04", "06"])
    said = words(opened())
    order = [said.index(part) for part in ("000-A1", "Situation", "Background", "What was shown", "What is asked")]
    assert order == sorted(order)
    assert "A nurse had to cue, or steady with a touching hand (04), then: Shut the outlet and check it." in said


def test_the_text_to_copy_stands_there_without_scripts(ward, ada, stoma, opened):
    body = opened().content.decode()
    area = body[body.index("<textarea") : body.index("</textarea>")]
    assert "readonly" in area and "Stoma teaching handover, Wed 13 May 2026 02:14" in area
    assert "S: Stoma: end ileostomy, right; day 4." in area


def test_marks_are_defined_on_the_page_that_uses_them(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 9)
    body = opened().content.decode()
    assert 'id="mark-06"' in body and 'href="#mark-06"' in body


def test_no_name_in_the_title_and_no_number_in_the_address(ada, stoma, opened):
    body = opened().content.decode()
    assert "Fernhollow" not in body[body.index("<title>") : body.index("</title>")]


def test_it_leads_to_the_papers_and_back(ada, stoma, opened):
    body = opened().content.decode()
    for name in ("handover-paper", "transfer-form", "person"):
        assert reverse(name, args=[ada.uid]) in body


def test_the_persons_page_and_the_shift_lead_here_for_those_who_may(ward, ada, stoma, signed_in):
    for who, leads in (("amber", True), ("ashby", False)):
        person = signed_in(who).get(reverse("person", args=[ada.uid])).content.decode()
        shift = signed_in(who).get(reverse("this-shift", args=[ward.unit.uid])).content.decode()
        assert (reverse("handover", args=[ada.uid]) in person) is leads
        assert (reverse("shift-handover", args=[ward.unit.uid]) in shift) is leads
        assert (reverse("blank-session", args=[ward.unit.uid, "bowel"]) in shift) is leads


def test_one_trail_line_says_that_it_was_read(ada, stoma, opened):
    opened()
    line = TrailLine.objects.latest("id")
    assert (line.verb, line.outcome, line.stay) == ("print_handover", "read", str(ada.uid))


@pytest.mark.parametrize("sessions", [1, 3])
def test_it_costs_the_same_queries_for_one_and_for_three_sessions(
    sessions, ward, ada, stoma, opened, assert_selects
):
    for number in range(sessions):
        ward.teach(ada, stoma, 9 + 8 * number)
    with assert_selects(20):
        opened()


@pytest.mark.parametrize(("who", "status"), [("ashby", 403), ("tansy", 403), ("edda", 403), ("wilma", 404)])
def test_others_are_refused_or_find_nothing(who, status, ada, stoma, signed_in):
    assert signed_in(who).get(reverse("handover", args=[ada.uid])).status_code == status
