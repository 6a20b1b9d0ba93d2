"""The network goes while a nurse records: the page goes on, keeps no identity, and sends once when it is back.

What may stand on a device: OWASP ASVS 5.0 14.3.3, and our written deviation from it (DEVELOPERS.md, Of the bedside).
"""

import json
import re

import pytest
from django.urls import reverse

from teaching.models import Account, Draft, DraftTap
from tests.browser.hand import Hand

SIGN = "Sign: I taught and saw this"
KEPT = "() => JSON.parse(localStorage.getItem('kept-taps'))"


@pytest.fixture
def recorder(amber, live_server, ada, stoma):
    amber.goto(live_server.url + reverse("emptying", args=[ada.uid]))
    return amber


@pytest.fixture
def gone(recorder, context):
    """Recorder with two answers tapped after the network went."""
    context.set_offline(True)
    hand = Hand(recorder)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    hand.tap("All of this alone, nobody spoke")
    recorder.locator("[data-offline]").wait_for(state="visible")
    recorder.wait_for_function("() => (localStorage.getItem('kept-taps') ?? '').includes('alone')")
    return recorder


def test_the_page_says_so_and_goes_on_and_shuts_notes_and_signing(gone):
    assert "No network. Go on" in gone.locator("[data-offline]").inner_text()
    assert gone.locator(".next button[form=recorder]").is_disabled()
    notes = gone.locator("input[type=text], textarea").evaluate_all("all => all.map(one => one.disabled)")
    assert notes and all(notes)
    assert "kept on this device" in gone.locator("[data-saved]").inner_text()


def test_what_the_device_keeps_holds_no_identity(gone, ada):
    held = gone.evaluate(KEPT)
    assert set(held) == {"key", "begun", "sessions"}
    (session,) = held["sessions"].values()
    assert set(session) == {"checklist", "draft", "taps"}
    assert all(set(tap) == {"id", "field", "value", "which", "base", "at"} for tap in session["taps"])
    assert [(tap["field"], tap["value"]) for tap in session["taps"]][1:] == [("alone", True)]
    text = json.dumps(held)
    for told in ("Ada", "Fernhollow", "000-A1", "1958", "Amber", "Oakley", str(ada.uid)):
        assert told not in text


def test_nothing_else_is_left_on_the_device(gone):
    assert gone.evaluate("() => Object.keys(localStorage)") == ["kept-taps"]
    assert gone.evaluate("() => Object.keys(sessionStorage)") == []


def test_it_is_sent_once_when_the_network_is_back_and_signed_as_ever(gone, context):
    context.set_offline(False)
    gone.locator("[data-saved]").filter(has_text=re.compile(r"^\s*Saved \d\d:\d\d$")).wait_for()
    assert gone.evaluate(KEPT) is None
    assert not gone.locator("[data-offline]").is_visible()
    assert sorted(DraftTap.objects.values_list("field", flat=True)) == ["alone", "which"]
    Hand(gone).tap(SIGN)
    gone.wait_for_url("**/stays/*/")
    assert (Account.objects.count(), Draft.objects.get().state) == (1, "signed")


def test_words_are_never_kept_on_the_device(recorder, context):
    hand = Hand(recorder)
    hand.tap("Ada Fernhollow: end ileostomy, right")
    recorder.locator("[data-saved]").filter(has_text="Saved").wait_for()
    recorder.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    context.set_offline(True)
    field = recorder.locator("input[name='note.em-open'], textarea[name='note.em-open']")
    field.fill("Ada is afraid")
    field.blur()
    recorder.locator("[data-offline]").wait_for(state="visible")
    assert "afraid" not in recorder.evaluate("() => localStorage.getItem('kept-taps') ?? ''")


def test_signing_out_throws_it_away_even_without_a_network(gone):
    gone.get_by_role("button", name="Sign out").click(no_wait_after=True)
    gone.wait_for_timeout(300)
    assert gone.context.storage_state()["origins"] == []


def test_another_user_on_the_device_throws_it_away_unsent(gone, context, sign_in, live_server, ada):
    gone.route("**/taps/", lambda route: route.abort())
    context.set_offline(False)
    sign_in(context, "basil")
    gone.goto(live_server.url + reverse("person", args=[ada.uid]))
    assert gone.evaluate(KEPT) is None
    assert Draft.objects.count() == 0


def test_a_page_that_was_closed_is_sent_from_the_next_one(gone, context, live_server, ada):
    gone.route("**/taps/", lambda route: route.abort())
    context.set_offline(False)
    page = context.new_page()
    page.goto(live_server.url + reverse("person", args=[ada.uid]))
    page.get_by_text("What was tapped without a network is saved now, not signed.").wait_for()
    assert Draft.objects.get().owner.details.get().name == "Amber Oakley"
    assert page.evaluate(KEPT) is None


def test_after_twelve_hours_it_is_thrown_away(gone, context, live_server, ada):
    gone.evaluate(
        """() => {
          const held = JSON.parse(localStorage.getItem("kept-taps"));
          held.begun = new Date(Date.now() - 12 * 3600 * 1000 - 1000).toISOString();
          localStorage.setItem("kept-taps", JSON.stringify(held));
        }"""
    )
    context.set_offline(False)
    gone.goto(live_server.url + reverse("person", args=[ada.uid]))
    assert gone.evaluate(KEPT) is None
