"""By keyboard alone the one next action of a person's page is near, however long the page is."""

from django.urls import reverse


def test_from_the_top_of_a_persons_page_to_recording_in_four_keys(amber, live_server, ward, ada, stoma):
    ward.teach(ada, stoma, 9)
    amber.goto(live_server.url + reverse("person", args=[ada.uid]))
    amber.keyboard.press("Tab")
    amber.keyboard.press("Tab")
    assert amber.evaluate("document.activeElement.innerText") == "Go to what may be recorded"
    amber.keyboard.press("Enter")
    amber.keyboard.press("Tab")
    assert amber.evaluate("document.activeElement.innerText") == "Record an emptying"
