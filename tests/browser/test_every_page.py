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
SHOWS_ANSWERS = ("emptying", "care", "caution-settled")
AT_ONCE = 6  # pages that share one ward: building it takes longer than looking at a page


def batches():
    names = list(PAGES)
    return [names[first : first + AT_ONCE] for first in range(0, len(names), AT_ONCE)]


@pytest.fixture
def opened(page, context, ward, live_server, sign_in):
    """opened("person") shows that page, every fold open, to whoever opens it."""
    examples = Examples(ward)

    def show(name):
        who, args = PAGES[name]
        context.clear_cookies()
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


@pytest.mark.parametrize("names", batches(), ids=lambda names: f"{names[0]} to {names[-1]}")
def test_every_page(names, opened):
    """All that is asked of a page, page by page; every fault is told, by page and by what was asked."""
    found = {}
    for name in names:
        page = opened(name)
        for asked, look in LOOKS.items():
            faults = look(page, name)
            if faults:
                found[name, asked] = faults
    assert found == {}


def by_axe(page, name):
    """axe-core at three sizes, by day and by night."""
    found, axe = {}, Axe()
    for light in ("light", "dark"):
        page.emulate_media(color_scheme=light)
        for size, (width, height) in SIZES.items():
            resize(page, width, height)
            faults = axe.run(page).response["violations"]
            axe.axe_script = ""  # once put into a page it stays there
            for fault in faults:
                places = [node["target"] for node in fault["nodes"]]
                found.setdefault((fault["id"], fault["help"]), []).append((light, size, places[:3]))
    page.emulate_media(color_scheme="light")
    return found


def small_and_on_its_side(page, name):
    """320 px wide (WCAG 1.4.10) and 568 by 320: nothing sideways, no text under 15 px, the bars let go."""
    found = []
    for width, height in ((320, 568), (568, 320)):
        resize(page, width, height)
        found += page.evaluate(probes.SIDEWAYS)
        found += page.evaluate(probes.SMALL_TEXT, LEAST_TEXT_PX)
    bars = page.locator(".band, .next").evaluate_all("all => all.map(one => getComputedStyle(one).position)")
    return found + [f"a bar that is {bar}" for bar in bars if bar != "static"]


def answer_rows(page, name):
    """64 px high and 8 px apart."""
    found = []
    for width, height in SIZES.values():
        resize(page, width, height)
        found += page.evaluate(probes.ANSWERS)
    missing = name in SHOWS_ANSWERS and not page.locator("label.answer").count()
    return found + (["no answer rows at all"] if missing else [])


def focus(page, name):
    """Seen, and never hidden under a bar."""
    found = []
    for size in ("tablet", "phone"):
        resize(page, *SIZES[size])
        found += page.evaluate(probes.FOCUS)
    return found


LOOKS = {"axe": by_axe, "small": small_and_on_its_side, "answers": answer_rows, "focus": focus}
