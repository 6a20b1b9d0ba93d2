"""The plan on the readiness page: its sentence, a timeline with words behind it, and what a helper could learn now."""

from datetime import timedelta
from types import SimpleNamespace

from django.urls import reverse

from teaching.discharge.plan_page import PlanPage
from teaching.record.charts import chart_for
from teaching.record.stays import plan_home
from teaching.rules.moves import Move
from teaching.rules.reasons import Reason
from tests.bedside.reading import words
from tests.bedside.ward import NIGHT


def page(amber, ada):
    return amber.get(reverse("readiness", args=[ada.uid]))


def test_the_plan_says_when_and_draws_the_chances(amber, ada, stoma):
    told = page(amber, ada)
    assert "The plan" in words(told)
    assert "Chances to teach." in told.content.decode()
    assert "Emptying:" in words(told)


def test_a_helper_who_is_here_now(amber, ward, ada, stoma):
    assert "is here now?" not in words(page(amber, ada))
    ward.helper(ada)
    assert "Hugo is here now? In ten minutes:" in words(page(amber, ada))


def test_what_would_help_is_said_as_a_bound_and_no_outcome(ada, stoma):
    move = Move("help", Reason("move-visit", stoma="", by=NIGHT), 0, "self-caring", NIGHT + timedelta(hours=8))
    (said,) = PlanPage(SimpleNamespace(moves=[move]), chart_for(ada), NIGHT, []).moves
    assert said[1] == "self-caring could then be reached, not before today 10:14"


def test_the_page_says_that_arrangements_stand_apart(amber, ada, stoma, monkeypatch):
    monkeypatch.setattr(PlanPage, "moves", [("A visit.", "self-caring could then be reached, not before Sat 10:00")])
    said = words(page(amber, ada))
    assert "A visit. Self-caring could then be reached, not before Sat 10:00." in said
    assert "Each time is the soonest, no promise. What must be arranged stands apart." in said


def test_bound_for_a_facility_no_result_is_listed_that_would_wait_for_learning(amber, ward, ada, stoma):
    at_home = words(page(amber, ada))
    assert "Self-caring: " in at_home and "With a named helper: " in at_home
    plan_home(actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(days=2), goes_to="facility")
    bound = words(page(amber, ada))
    assert "Bound for a care facility: its nurses take over." in bound
    for said in ("Self-caring: ", "With a named helper: ", "With nursing care arranged: ", "within the time there is"):
        assert said not in bound
