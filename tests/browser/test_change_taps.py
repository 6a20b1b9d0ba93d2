"""A usual change within 20 taps, a mixed one within 40; with scripts, without them, and by keyboard alone."""

import pytest
from django.urls import reverse

from teaching.models import Account
from tests.bedside.test_change import USUAL
from tests.browser.hand import Hand

SIGN = "Sign: I taught and saw this"
ALONE = "All of this alone, nobody spoke"
PARTS = {
    "prepare": "Prepare", "take-off": "Take off", "clean-look": "Clean and look", "fit-protect": "Fit and protect",
    "put-on": "Put on and finish",
}  # fmt: skip


@pytest.fixture
def address(live_server, ada):
    return live_server.url + reverse("change", args=[ada.uid])


@pytest.fixture
def opened(request, amber, browser, sign_in, address, ada, stoma):
    """opened("on") is Amber's page with scripts, opened("off") without."""
    made = []

    def show(scripts):
        page = amber
        if scripts == "off":
            made.append(sign_in(browser.new_context(java_script_enabled=False), "amber"))
            page = made[0].new_page()
        page.goto(address)
        return page

    yield show
    for context in made:
        context.close()


def stored():
    return dict(Account.objects.get().ratings.order_by("row__position").values_list("code", "answer"))


def part(page, code):
    return page.locator(f"[data-part={code}]")


class ChangeHand(Hand):
    def open(self, code):
        part(self.page, code).locator("> summary").click()
        self.taps += 1

    def tap_in(self, place, words, exact=False):
        """Tap these words within a part or a row that stands open."""
        found = place.locator("label, summary")
        found = found.get_by_text(words, exact=True) if exact else found.filter(has_text=words)
        found.locator("visible=true").first.click()
        self.taps += 1


@pytest.mark.parametrize("scripts", ["on", "off"])
def test_a_usual_change_takes_at_most_twenty_taps(scripts, opened):
    """Everything alone, and what was seen: colour, surface, how the last pouch ended."""
    page = opened(scripts)
    hand = ChangeHand(page)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    for code in PARTS:
        hand.open(code)
        hand.tap_in(part(page, code), ALONE)
    hand.tap("What you saw: stoma and skin")
    hand.tap("pink or red")
    hand.tap("wet", within="#id_finding\\.wet_field")
    hand.tap("planned")
    hand.tap(SIGN)
    page.wait_for_url("**/stays/*/")
    assert hand.taps <= 20
    assert set(stored()) == set(USUAL)
    assert set(stored().values()) == {"06", "right"}
    finding = Account.objects.get().finding
    assert (finding.colour, finding.wet, finding.wear_end) == ("pink-red", "wet", "planned")


@pytest.mark.parametrize("scripts", ["on", "off"])
def test_a_mixed_change_takes_at_most_forty_taps(scripts, ward, ada, opened):
    """The person did the first three parts; her husband cut and put on; four steps needed help, for a reason."""
    hugo = ward.helper(ada)
    page = opened(scripts)
    hand = ChangeHand(page)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    for code in PARTS:
        hand.open(code)
        hand.tap_in(part(page, code), ALONE)
    for code in ("fit-protect", "put-on"):
        hand.tap_in(part(page, code), "Somebody else did this part")
        hand.tap_in(part(page, code).locator(f"[id='id_part_who.{code}_field']"), "Hugo, husband")
    for row, level in (("off-peel", "04"), ("look-under", "03"), ("cut", "02"), ("press", "04")):
        step = page.locator(f"[data-row={row}]")
        step.locator("> summary").click()
        hand.taps += 1
        hand.tap_in(step.locator(f"[id='id_ratings.{row}_field']"), level)
    cut = page.locator("[data-row=cut]")
    hand.tap_in(cut, "Why lower, aids")
    hand.tap_in(cut, "new kit")
    hand.tap("What you saw: stoma and skin")
    hand.tap("pink or red")
    hand.tap("leak", within="#id_finding\\.wear_end_field")
    hand.tap(SIGN)
    page.wait_for_url("**/stays/*/")
    assert hand.taps <= 40
    helped = {code: level for code, level in stored().items() if level not in ("06", "right")}
    assert helped == {"off-peel": "04", "look-under": "03", "cut": "02", "press": "04"}
    ratings = Account.objects.get().ratings
    assert set(ratings.filter(learner=hugo).values_list("code", flat=True)) == set(USUAL[9:])
    assert ratings.get(code="cut").reason == "new-kit"


def test_a_change_by_keyboard_alone(amber, address, ada, stoma):
    amber.goto(address)

    def tab_to(selector):
        for _ in range(80):
            amber.keyboard.press("Tab")
            if amber.evaluate("s => document.activeElement.matches(s)", selector):
                return
        pytest.fail(f"The keyboard never reaches {selector}")

    tab_to("input[name=which]")
    amber.keyboard.press("Space")
    for code in PARTS:
        tab_to(f"[data-part={code}] > summary")
        amber.keyboard.press("Enter")
        tab_to(f"input[name='alone.{code}']")
        amber.keyboard.press("Space")
    tab_to("button.act[form=recorder]")
    amber.keyboard.press("Enter")
    amber.wait_for_url("**/stays/*/")
    assert set(stored()) == set(USUAL)


def test_a_part_says_what_will_be_stored_of_it(opened):
    page = opened("on")
    hand = ChangeHand(page)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    hand.open("prepare")
    hand.tap_in(part(page, "prepare"), ALONE)
    now = part(page, "prepare").locator("[data-part-now]")
    assert now.inner_text() == "Now: alone"
    hand.tap_in(part(page, "prepare"), "Lay everything out")
    hand.tap_in(page.locator("[data-row=prep-kit]"), "You only set out")
    assert now.inner_text() == "Now: alone, but for 1"


@pytest.mark.parametrize("scripts", ["on", "off"])
def test_an_answer_of_the_chooser_taps_its_level(scripts, opened):
    page = opened(scripts)
    hand = ChangeHand(page)
    hand.open("fit-protect")
    cut = page.locator("[data-row=cut]")
    cut.locator("> summary").click()
    hand.tap_in(cut, "Which level?")
    hand.tap_in(cut, "Half and half")
    assert cut.locator("input[name='ratings.cut']:checked").input_value() == "02"


def test_enter_in_a_field_signs_nothing(opened, ada):
    page = opened("off")
    hand = ChangeHand(page)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    hand.open("prepare")
    hand.tap_in(part(page, "prepare"), ALONE)
    hand.tap("When, where, how long")
    page.locator("input[name=language]").press("Enter")
    page.wait_for_load_state()
    assert page.locator("h1").inner_text() == "A pouch change, taught and seen"
    assert not Account.objects.exists()


def test_powder_names_the_skin_as_it_is_tapped(amber, address, ward, ada):
    ward.stoma(ada, items=("powder",))
    amber.goto(address)
    hand = ChangeHand(amber)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    hand.tap("What you saw: stoma and skin")
    amber.locator("[name='skin.feet']").select_option("wet-raw")
    hint = amber.locator("[data-hint]", has_text="Skin found: wet or raw towards the feet.")
    hint.wait_for(state="attached")
    assert ada.cautions.get().sign == "sore-skin"
