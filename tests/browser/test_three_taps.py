"""An emptying in three taps, a leak in three; with scripts, without them, and by keyboard alone."""

import pytest
from django.urls import reverse

from teaching.models import Account, Draft
from tests.bedside.ward import EMPTYING
from tests.browser.hand import Hand

SIGN = "Sign: I taught and saw this"
SLOW_TAPS = """
const real = window.fetch;
window.fetch = async (...asked) => {
  if (String(asked[0]).includes("/taps/")) await new Promise((answered) => setTimeout(answered, 800));
  return real(...asked);
};
"""


@pytest.fixture
def at(live_server):
    return lambda name, thing: live_server.url + reverse(name, args=[thing.uid])


@pytest.fixture
def quiet(browser, sign_in):
    """A page of Amber's with scripts off."""
    context = sign_in(browser.new_context(java_script_enabled=False), "amber")
    yield context.new_page()
    context.close()


def taught():
    return list(Account.objects.get().ratings.order_by("row__position").values_list("code", "answer"))


def teach_in_three(page, address):
    page.goto(address)
    hand = Hand(page)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    hand.tap("All of this alone, nobody spoke")
    hand.tap(SIGN)
    page.wait_for_url("**/stays/*/")
    assert hand.taps == 3
    assert taught() == [(code, "06") for code in EMPTYING]


def test_an_emptying_takes_three_taps(amber, at, ada, stoma):
    teach_in_three(amber, at("emptying", ada))


def test_an_emptying_takes_three_taps_with_scripts_off(quiet, at, ada, stoma):
    teach_in_three(quiet, at("emptying", ada))


def test_signing_waits_for_the_taps_still_on_their_way(amber, at, ada, stoma):
    amber.add_init_script(SLOW_TAPS)
    teach_in_three(amber, at("emptying", ada))
    assert [draft.state for draft in Draft.objects.all()] == ["signed"]


@pytest.mark.parametrize("scripts", ["on", "off"])
def test_a_leak_takes_three_taps(scripts, amber, quiet, at, ada, stoma):
    page = amber if scripts == "on" else quiet
    page.goto(at("care", ada))
    hand = Hand(page)
    hand.tap("end ileostomy, right")
    hand.tap("It leaked, and I changed the pouch")
    hand.tap("Sign: I did this")
    page.wait_for_url("**/stays/*/")
    assert hand.taps == 3
    assert Account.objects.get().finding.wear_end == "leak"


def test_one_row_that_differed_takes_two_taps_more(amber, at, ada, stoma):
    amber.goto(at("emptying", ada))
    hand = Hand(amber)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    hand.tap("All of this alone, nobody spoke")
    hand.tap("Shut the outlet and check it")
    hand.tap("You had to cue")
    assert "Now: 04 You had to cue" in amber.locator("[data-row=em-close] [data-now]").inner_text()
    hand.tap(SIGN)
    amber.wait_for_url("**/stays/*/")
    assert hand.taps == 5
    assert dict(taught())["em-close"] == "04"


def test_an_emptying_by_keyboard_alone(amber, at, ada, stoma):
    amber.goto(at("emptying", ada))

    def tab_to(selector):
        for _ in range(60):
            amber.keyboard.press("Tab")
            if amber.evaluate("s => document.activeElement.matches(s)", selector):
                return
        pytest.fail(f"The keyboard never reaches {selector}")

    tab_to("input[name=which]")
    amber.keyboard.press("Space")
    tab_to("input[name=alone]")
    amber.keyboard.press("Space")
    tab_to("button.act[form=recorder]")
    amber.keyboard.press("Enter")
    amber.wait_for_url("**/stays/*/")
    assert taught() == [(code, "06") for code in EMPTYING]


def test_each_tap_says_when_it_was_saved(amber, at, ada, stoma):
    amber.goto(at("emptying", ada))
    Hand(amber).tap("Ada Fernhollow: end ileostomy, right")
    saved = amber.locator("[data-saved][aria-live=polite]")
    saved.filter(has_text="Saved").wait_for()
    assert saved.inner_text()[:6] == "Saved "
    assert ada.drafts.get().taps.get().field == "which"


def test_a_tap_that_was_not_saved_says_so_and_signing_still_sends_all(amber, at, ada, stoma):
    amber.goto(at("emptying", ada))
    amber.route("**/taps/", lambda route: route.abort())
    hand = Hand(amber)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    amber.locator("[data-saved]").filter(has_text="Not saved yet").wait_for()
    hand.tap("All of this alone, nobody spoke")
    hand.tap(SIGN)
    amber.wait_for_url("**/stays/*/")
    assert taught() == [(code, "06") for code in EMPTYING]


def test_a_worrying_colour_says_the_caution_at_once(amber, at, ada, stoma):
    amber.goto(at("emptying", ada))
    hand = Hand(amber)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    hand.tap("What you saw: stoma and skin")
    hand.tap("brown or black")
    beside = amber.locator("fieldset .caution.now")
    beside.wait_for()
    assert beside.inner_text().startswith("Call now: Stoma dark, dusky or pale.")
    aloud = amber.locator("[data-raised][aria-live=assertive]")
    assert aloud.text_content() == beside.inner_text()
    assert ada.cautions.get().sign == "dark-stoma"


def test_only_the_rows_of_the_tapped_stoma_stay(amber, at, ward, ada, stoma):
    ward.stoma(ada, "urostomy", "left", outlet="tap")
    amber.goto(at("emptying", ada))
    assert amber.locator("[data-row=em-open]").is_visible()
    Hand(amber).tap("end urostomy, left")
    assert amber.locator("[data-row=ue-open]").is_visible()
    assert not amber.locator("[data-row=em-open]").is_visible()
