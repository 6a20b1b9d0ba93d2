"""Every page in a real browser: axe-core finds nothing, nothing scrolls sideways, nothing is too small.

A tablet, a phone and a desktop, each by day and by night; axe-core's WCAG rules and its best practices.
"""

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.urls import reverse

from tests.browser import probes
from tests.browser.pages import NOT_PAGES, PAGES, Examples, named_addresses

SIZES = {"tablet": (1024, 768), "phone": (390, 844), "desktop": (1440, 900)}
LEAST_TEXT_PX = 15


@pytest.fixture
def opened(page, context, ward, live_server, sign_in):
    """opened("person") shows that page, every fold open, to whoever opens it."""
    examples = Examples(ward)

    def show(name):
        who, args = PAGES[name]
        if who:
            sign_in(context, who)
        answer = page.goto(live_server.url + reverse(name, kwargs=args(examples)))
        assert answer.status == 200, f"{name} answered {answer.status}"
        page.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
        return page

    return show


def resize(page, width, height):
    page.set_viewport_size({"width": width, "height": height})


def test_every_address_is_a_page_with_an_example_or_says_why_not():
    assert named_addresses() - set(PAGES) - set(NOT_PAGES) == set()
    assert set(PAGES) & set(NOT_PAGES) == set()


@pytest.mark.parametrize("name", PAGES)
def test_axe_finds_nothing_at_three_sizes_by_day_and_night(name, opened):
    page, found = opened(name), {}
    for light in ("light", "dark"):
        page.emulate_media(color_scheme=light)
        for size, (width, height) in SIZES.items():
            resize(page, width, height)
            for fault in Axe().run(page).response["violations"]:
                places = [node["target"] for node in fault["nodes"]]
                found.setdefault((fault["id"], fault["help"]), []).append((light, size, places[:3]))
    assert found == {}


@pytest.mark.parametrize("name", PAGES)
def test_a_small_phone_upright_and_on_its_side(name, opened):
    """320 px wide (WCAG 1.4.10) and 568 by 320: nothing sideways, no text under 15 px, the bars let go."""
    page = opened(name)
    for width, height in ((320, 568), (568, 320)):
        resize(page, width, height)
        assert page.evaluate(probes.SIDEWAYS) == []
        assert page.evaluate(probes.SMALL_TEXT, LEAST_TEXT_PX) == []
    bars = page.locator(".band, .next").evaluate_all("all => all.map(one => getComputedStyle(one).position)")
    assert set(bars) <= {"static"}


@pytest.mark.parametrize("name", PAGES)
def test_answer_rows_are_64_px_high_and_8_px_apart(name, opened):
    page = opened(name)
    for width, height in SIZES.values():
        resize(page, width, height)
        assert page.evaluate(probes.ANSWERS) == []
    assert page.locator("label.answer").count() or name not in ("emptying", "care", "caution-settled")


@pytest.mark.parametrize("size", ["tablet", "phone"])
@pytest.mark.parametrize("name", PAGES)
def test_focus_is_seen_and_never_hidden_under_a_bar(name, size, opened):
    page = opened(name)
    resize(page, *SIZES[size])
    assert page.evaluate(probes.FOCUS) == []
