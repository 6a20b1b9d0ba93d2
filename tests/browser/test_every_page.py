"""Every page in a real browser: axe-core finds nothing, nothing scrolls sideways, nothing is too small.

A tablet, a phone and a desktop; axe-core's WCAG rules and its best practices. By night once more what is about
colours, on a tablet and a phone: night is other colours and nothing else, and no style begins between a tablet's
width and a desktop's (both tested below), so that there is nothing else to find.
"""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.urls import reverse

from tests.browser import probes
from tests.browser.pages import NOT_PAGES, PAGES, Examples, named_addresses

SIZES = {"tablet": (1024, 768), "phone": (390, 844), "desktop": (1440, 900)}
LEAST_TEXT_PX = 15
SHOWS_ANSWERS = ("emptying", "care", "caution-settled")
LIGHTS = {
    "light": ("tablet phone desktop", {"resultTypes": ["violations"]}),
    "dark": ("tablet phone", {"resultTypes": ["violations"], "runOnly": ["cat.color"]}),
}
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


def styles():
    return {path.name: path.read_text() for path in (settings.BASE_DIR / "teaching" / "static").rglob("*.css")}


def test_night_is_other_colours_and_nothing_else():
    rules = re.findall(r"([^{}]+)\{([^{}]*)\}", re.sub(r"/\*.*?\*/", "", styles()["night.css"], flags=re.S))
    assert [chosen.strip() for chosen, _ in rules] == [":root"]
    day = re.findall(r"(--[a-z-]+):", styles()["day.css"])
    for line in filter(None, map(str.strip, rules[0][1].split(";"))):
        name, value = line.split(":")
        assert name == "color-scheme" or (name in day and re.fullmatch(r"#[0-9A-F]{6}", value.strip())), line


def test_no_style_begins_between_a_tablet_and_a_desktop():
    asked = [query for text in styles().values() for query in re.findall(r"@media\s*([^{]+?)\s*\{", text)]
    known = [re.fullmatch(r"\((?:min|max)-(width|height): ([0-9.]+)rem\)|print", query) for query in asked]
    assert len(asked) > 9 and all(known), asked
    for side, end in zip(("width", "height"), range(2), strict=True):
        begins = {float(each[2]) * 16 for each in known if each[1] == side}
        assert not [at for at in begins if SIZES["tablet"][end] < at <= SIZES["desktop"][end]]


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
    found, axe = {}, Axe()
    for light, (sizes, options) in LIGHTS.items():
        page.emulate_media(color_scheme=light)
        for size in sizes.split():
            resize(page, *SIZES[size])
            faults = axe.run(page, options=options).response["violations"]
            axe.axe_script = ""  # once put into a page it stays there
            for fault in faults:
                places = [node["target"] for node in fault["nodes"]]
                found.setdefault((fault["id"], fault["help"]), []).append((light, size, places[:3]))
    page.emulate_media(color_scheme="light")
    return found


def test_what_is_too_pale_by_night_only_is_found(page, live_server):
    page.goto(live_server.url + reverse("sign-in"))
    page.evaluate("""() => {
      const pale = new CSSStyleSheet();
      pale.replaceSync("@media (prefers-color-scheme: dark) { h1 { color: #40464A; } }");
      document.adoptedStyleSheets = [pale];
    }""")
    ((rule, _), places), = by_axe(page, "sign-in").items()
    assert (rule, [(light, size) for light, size, _ in places]) == (
        "color-contrast", [("dark", "tablet"), ("dark", "phone")],
    )  # fmt: skip


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
