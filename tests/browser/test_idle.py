"""Two minutes before the server ends an idle session the page says so, and a touch keeps it."""

import pytest
from django.conf import settings
from django.urls import reverse

WARNING = "You will be signed out in two minutes."


@pytest.fixture
def page_of_amber(page, amber, ward, live_server):
    page.clock.install()
    page.goto(live_server.url + reverse("this-shift", kwargs={"unit": ward.unit.uid}))
    return page


def test_the_warning_comes_two_minutes_before_and_goes_with_a_touch(page_of_amber):
    page = page_of_amber
    warning = page.get_by_text(WARNING)
    page.clock.fast_forward(1000 * (settings.SESSION_IDLE_SECONDS - 121))
    assert not warning.is_visible()
    page.clock.fast_forward(2000)
    assert warning.is_visible()
    with page.expect_response("**/still-here/") as told:
        page.get_by_role("button", name="Stay signed in").click()
    assert told.value.status == 204
    warning.wait_for(state="hidden")
    page.clock.fast_forward(1000 * (settings.SESSION_IDLE_SECONDS - 119))
    assert warning.is_visible()


def test_somebody_at_work_is_told_of_at_most_once_a_minute(page_of_amber):
    page, told = page_of_amber, []
    page.on("request", lambda request: told.append(request.url) if "still-here" in request.url else None)
    page.keyboard.press("Tab")
    page.clock.fast_forward(62_000)
    with page.expect_response("**/still-here/"):
        page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.clock.fast_forward(30_000)
    page.keyboard.press("Tab")
    page.wait_for_timeout(200)
    assert len(told) == 1
