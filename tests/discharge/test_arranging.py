"""Recording what must be in place: stored, shown, asked about, refused with a sentence and nothing stored."""

import uuid

import pytest
from django.urls import reverse

from teaching.models import Arrangement
from teaching.record.charts import chart_for


@pytest.fixture
def fill(amber, ada, stoma):
    """fill("arrange", code="supplies")(state="made") posts that form of Ada's."""

    def form(name, **parts):
        def post(**fields):
            address = reverse(name, kwargs={"stay": ada.uid, **parts})
            return amber.post(address, {"form_key": str(uuid.uuid4()), **fields})

        return post

    return form


def test_supplies_are_stored_and_shown_on_the_readiness(fill, amber, ada):
    answer = fill("arrange", code="supplies")(
        state="made", days="14", due_at_0="2026-05-27T10:00", approved="on", codes="as on the kit card"
    )
    assert (answer.status_code, answer.url) == (303, reverse("readiness", args=[ada.uid]))
    (found,) = chart_for(ada).arrangements
    assert (found.state, found.detail("days"), found.detail("approved")) == ("made", 14, True)
    page = amber.get(answer.url).content.decode()
    assert "Days that the kit going along lasts: 14" in page
    assert "Approved by who pays: yes" in page


def test_how_many_to_take_along_stands_beside_the_form_and_on_the_readiness(fill, amber, ada):
    """Ada leaves on the 15th."""
    form = reverse("arrange", args=[ada.uid, "supplies"])
    assert "to last 14 days, as the days until a first delivery cannot be said" in amber.get(form).content.decode()
    fill("arrange", code="supplies")(state="made", days="14", due_at_0="2026-05-27T10:00")
    for address in (form, reverse("readiness", args=[ada.uid])):
        page = amber.get(address).content.decode()
        assert "7 pouches: 4 to last 12 days until the first delivery, one every 72 hours, and 3 spare." in page
        assert "While the size changes, kit for 28 days at most." in page
    assert "pouches:" not in amber.get(reverse("arrange", args=[ada.uid, "number"])).content.decode()


def test_what_was_said_before_stands_in_the_form(fill, amber, ada):
    fill("arrange", code="fluid-plan")(state="asked", drink="one litre a day", bloods="2026-05-20")
    page = amber.get(reverse("arrange", args=[ada.uid, "fluid-plan"])).content.decode()
    assert 'value="one litre a day"' in page
    assert 'value="2026-05-20"' in page


@pytest.mark.parametrize(("fields", "sentence"), [
    ({}, "Tap how far this is."),
    ({"state": "made", "days": "-3"}, "Write a whole number, 0 or more."),
    ({"state": "made", "days": "a fortnight"}, "Write a whole number, 0 or more."),
    ({"state": "made", "days": "4000"}, "365 is the most here."),
])
def test_supplies_refused(fill, fields, sentence):
    answer = fill("arrange", code="supplies")(**fields)
    assert answer.status_code == 422
    assert sentence in answer.content.decode()
    assert not Arrangement.objects.exists()


@pytest.mark.parametrize("code", ["number", "leak-service"])
@pytest.mark.parametrize("state", ["asked", "made"])
def test_a_number_that_nobody_can_ring_is_refused_beside_its_field(fill, code, state):
    """It would head the sheet for home."""
    said = {"state": state, "day_and_night": "on"} | ({"answers_hours": "4"} if code == "leak-service" else {})
    answer = fill("arrange", code=code)(**said, phone="nonsense")
    assert answer.status_code == 422
    asked = "Nobody can ring this: write the number with its digits, at least 3."
    assert answer.context["form"].errors == {"phone": [asked]}
    assert not Arrangement.objects.exists()
    assert fill("arrange", code=code)(**said, phone="").status_code == 303, "left open, it is only not known"
    assert fill("arrange", code=code)(**said, phone="00000 000 200").status_code == 303


@pytest.mark.parametrize("code", ["visit", "size", "no-such-thing"])
def test_what_is_not_arranged_by_this_form_is_not_there(amber, ada, code):
    assert amber.get(reverse("arrange", args=[ada.uid, code])).status_code == 404


VISIT = {"state": "made", "what_for": "change", "at_0": "2026-05-14T09:00", "accepted_by": "Nurse Invented"}


def test_a_visit_before_leaving_is_asked_about_then_kept(fill, ada):
    """Ada leaves on the 15th at 02:14."""
    answer = fill("new-visit")(**VISIT)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "before the planned leaving" in page
    assert 'type="checkbox" name="meant_so"' in page
    assert fill("new-visit")(**VISIT, meant_so="on").status_code == 303
    (visit,) = chart_for(ada).visits
    assert (visit.for_change, visit.accepted_by) == (True, "Nurse Invented")


def test_the_question_is_not_there_before_it_is_needed(amber, ada, stoma):
    assert 'type="checkbox" name="meant_so"' not in amber.get(reverse("new-visit", args=[ada.uid])).content.decode()


def test_a_visit_is_moved(fill, ada):
    fill("new-visit")(**VISIT | {"at_0": "2026-05-16T09:00"})
    (visit,) = chart_for(ada).visits
    fill("visit", key=visit.key)(**VISIT | {"at_0": "2026-05-16T15:00"})
    (moved,) = chart_for(ada).visits
    assert (moved.key, f"{moved.at:%H:%M}") == (visit.key, "14:00")


def test_a_key_that_is_not_hers_is_not_there(amber, ada, stoma):
    assert amber.get(reverse("visit", args=[ada.uid, uuid.uuid4()])).status_code == 404
    assert amber.get(reverse("appointment", args=[ada.uid, uuid.uuid4()])).status_code == 404


def test_teaching_is_booked_for_two_and_then_missed(fill, ward, ada):
    helper = ward.helper(ada)
    person = ada.learners.get(kind="person")
    told = {
        "at_0": "2026-05-13T10:00", "learners": [str(person.uid), str(helper.uid)], "procedure": "change",
        "aim": "shut first", "state": "booked", "teacher": str(ward.staff["basil"].clinician.uid),
    }  # fmt: skip
    assert fill("new-appointment")(**told).status_code == 303
    (booked,) = chart_for(ada).appointments
    assert (booked.learners, booked.may_teach) == (tuple(sorted([str(person.uid), str(helper.uid)])), False)
    refused = fill("appointment", key=booked.key)(**told | {"state": "missed"})
    assert "Say why it was missed" in refused.content.decode()
    assert fill("appointment", key=booked.key)(**told | {"state": "missed", "why": "in theatre"}).status_code == 303
    (missed,) = chart_for(ada).appointments
    assert (missed.state, missed.why) == ("missed", "in theatre")


def test_a_planner_arranges_and_an_assistant_does_not(signed_in, ada, stoma):
    address = reverse("arrange", args=[ada.uid, "supplies"])
    assert signed_in("ashby").get(address).status_code == 403
