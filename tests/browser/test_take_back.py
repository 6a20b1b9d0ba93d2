"""An answer is taken back as if nobody had tapped it; a session put away elsewhere is begun anew by the next tap."""

from django.urls import reverse

from teaching.models import Account, Caution, Draft
from teaching.record.drafts import newest_taps, put_away_draft
from tests.browser.hand import Hand

SIGN = "Sign: I taught and saw this"


def begun(amber, live_server, ada):
    amber.goto(live_server.url + reverse("emptying", args=[ada.uid]))
    hand = Hand(amber)
    for words in ("Ada Fernhollow: end ileostomy, right", "Shut the outlet and check it", "You had to cue"):
        hand.tap(words)
    assert kept(amber, "04")
    return hand


def kept(page, answer):
    """Whether the server comes to hold this answer of the last step."""
    for _ in range(40):
        page.wait_for_timeout(100)
        draft = Draft.objects.filter(state="open").first()
        tap = newest_taps(draft, draft.owner).get("ratings.em-close") if draft else None
        if tap and tap.value == answer:
            return True
    return False


def test_an_answer_is_taken_back_by_a_tap_or_by_the_keyboard(amber, live_server, ada, stoma):
    hand = begun(amber, live_server, ada)
    row = amber.locator("[data-row=em-close]")
    back = row.locator("#id_ratings\\.em-close_field .take-back button")
    back.focus()
    amber.keyboard.press("Enter")
    amber.wait_for_function("() => !document.querySelector('[data-row=em-close] input:checked')")
    assert not back.is_visible() and row.locator("[data-now]").inner_text() == ""
    assert amber.evaluate("document.activeElement.name") == "ratings.em-close"
    hand.tap("Lift the end, open it, then lower it")
    amber.locator("[data-row=em-open] label.answer").first.click()
    assert kept(amber, "")
    hand.tap(SIGN)
    amber.wait_for_url("**/stays/*/")
    assert list(Account.objects.get().ratings.values_list("code", "answer")) == [("em-open", "06")]


def test_put_away_on_another_device_is_told_here_and_the_next_tap_begins_anew(amber, live_server, ward, ada, stoma):
    begun(amber, live_server, ada)
    first = Draft.objects.get()
    put_away_draft(actor=ward.staff["amber"], draft=first, why="")
    answers = amber.locator("[data-row=em-close] label.answer")
    answers.nth(3).click()
    told = amber.locator(".not-saved")
    told.wait_for()
    assert "Amber Oakley has put this session away." in told.inner_text()
    answers.nth(4).click()
    assert kept(amber, "02")
    assert Draft.objects.get(state="open") != first


def test_what_to_watch_for_is_in_sight_until_the_part_is_confirmed_and_when_its_step_is_opened(
    amber, live_server, ada, stoma
):
    amber.goto(live_server.url + reverse("change", args=[ada.uid]))
    hand = Hand(amber)
    for words in ("Ada Fernhollow: end ileostomy, right", "Prepare"):
        hand.tap(words)
    watch = amber.locator("[data-row=prep-kit] .step-watch")
    assert watch.is_visible()
    hand.tap("All of this alone, nobody spoke")
    assert not watch.is_visible()
    assert amber.locator("[data-row=prep-kit] [data-now]").inner_text() == "Now: alone"
    hand.tap("Lay everything out before starting")
    assert watch.is_visible()
    amber.goto(live_server.url + reverse("emptying", args=[ada.uid]))
    assert amber.locator("[data-row=em-close] .step-watch").is_visible()


def test_a_caution_stays_when_its_answer_is_taken_back_and_says_so(amber, live_server, ada, stoma):
    amber.goto(live_server.url + reverse("emptying", args=[ada.uid]))
    hand = Hand(amber)
    for words in ("Ada Fernhollow: end ileostomy, right", "What you saw: stoma and skin", "brown or black"):
        hand.tap(words)
    colour = amber.locator("#id_finding\\.colour_field")
    colour.locator(".caution").wait_for()
    assert not colour.locator("[data-stays]").count()
    colour.locator(".take-back button").click()
    assert "The caution stays." in colour.locator("[data-stays]").inner_text()
    assert Caution.objects.count() == 1


def test_what_is_missing_is_said_in_our_own_sentence_and_half_a_number_is_not_lost(amber, live_server, ada, stoma):
    amber.goto(live_server.url + reverse("change", args=[ada.uid]))
    hand = Hand(amber)
    hand.tap(SIGN)
    amber.locator(".summary").wait_for()
    assert "Tap whose change this was, once they have said" in amber.locator(".summary").inner_text()
    for words in ("Ada Fernhollow: end ileostomy, right", "Prepare", "All of this alone", "What you saw"):
        hand.tap(words)
    across = amber.locator("[name='finding.width_mm']")
    across.click()
    amber.keyboard.type("3e")
    hand.tap("What you saw")
    assert not across.is_visible()
    hand.tap(SIGN)
    amber.wait_for_timeout(500)
    assert across.is_visible() and across.evaluate("field => field.validity.badInput") and not Account.objects.exists()
