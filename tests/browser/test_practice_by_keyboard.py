"""An observed practice by keyboard alone: every row can be reached, answered and signed."""

import pytest
from django.urls import reverse

from teaching.models import Practice
from tests.bedside.ward import HOUSE
from tests.skills import certify, publish, rows_of


@pytest.fixture
def at_the_form(ward, amber, live_server):
    publish(HOUSE)
    certify(ward.staff["linden"], ward.staff["amber"])
    basil = ward.staff["basil"].clinician
    amber.goto(live_server.url + reverse("record-practice", args=[ward.unit.uid, basil.uid, "change"]))
    return amber


def test_a_practice_by_keyboard_alone(at_the_form):
    page = at_the_form

    def tab_to(selector):
        for _ in range(60):
            page.keyboard.press("Tab")
            if page.evaluate("s => document.activeElement.matches(s)", selector):
                return
        pytest.fail(f"The keyboard never reaches {selector}")

    tab_to("input[name=setting]")
    page.keyboard.press("Space")
    for place, row in enumerate(rows_of("change")):
        tab_to(f"input[name={row}]")
        page.keyboard.press("Space")
        if place == 0:
            page.keyboard.press("ArrowRight")
    tab_to("button.act[form=practice]")
    page.keyboard.press("Enter")
    page.wait_for_url("**/who-teaches/")
    made = Practice.objects.get()
    assert (made.setting, list(made.levels.values())) == ("person", ["4"] + ["5"] * (len(made.levels) - 1))
