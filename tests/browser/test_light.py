"""Day or night by the reader's own choice: at once, and again on the next page."""

from django.urls import reverse

PAPER = "getComputedStyle(document.body).backgroundColor"
DAY, NIGHT = "rgb(250, 246, 239)", "rgb(18, 23, 27)"


def test_night_at_once_and_on_the_next_page(page, live_server, transactional_db):
    page.emulate_media(color_scheme="light")
    page.goto(live_server.url + reverse("sign-in"))
    assert page.evaluate(PAPER) == DAY
    with page.expect_response("**/light/"):
        page.get_by_role("button", name="Night").click()
    assert page.evaluate(PAPER) == NIGHT
    assert page.get_by_role("button", name="Night").get_attribute("aria-pressed") == "true"
    page.goto(live_server.url + reverse("sign-in"))
    assert page.evaluate(PAPER) == NIGHT


def test_as_the_device_without_a_choice(page, live_server, transactional_db):
    page.emulate_media(color_scheme="dark")
    page.goto(live_server.url + reverse("sign-in"))
    assert page.evaluate(PAPER) == NIGHT


def test_nothing_on_a_page_breaks_the_content_policy(page, live_server, transactional_db):
    said = []
    page.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
    page.goto(live_server.url + reverse("sign-in"))
    assert said == []
