"""Night drainage part by part; meeting the stoma, where nothing is rated and nothing forced."""

import json
import uuid

import pytest
from django.urls import reverse

from teaching.models import Account, Draft
from tests.bedside.reading import words


@pytest.fixture
def person(ada):
    return ada.learners.get(kind="person")


@pytest.fixture
def urostomy(ward, ada):
    return ward.stoma(ada, "urostomy", outlet="tap", items=("night-bag",))


@pytest.fixture
def there(urostomy, person):
    return {"which": f"{urostomy.uid}:{person.uid}"}


def stored():
    return dict(Account.objects.get().ratings.values_list("code", "answer"))


def test_the_evenings_sentence_says_nothing_of_the_morning(ada, there, send):
    send("night", ada, **there, **{"alone.evening": "on"})
    assert stored() == {"nd-choice": "right", "nd-setup": "06", "nd-join": "06", "nd-lie": "06"}
    assert Account.objects.get().event.procedure == "night"


def test_the_morning_and_the_trouble_have_their_own(ada, there, send):
    send("night", ada, **there, **{"alone.morning": "on", "alone.trouble": "on"})
    assert stored() == {"nd-part": "06", "nd-clean": "06", "nd-stuck": "06"}


def test_without_a_night_bag_the_decision_is_still_ratable(ward, ada, person, amber, send):
    bare = ward.stoma(ada, "urostomy", outlet="tap")
    send("night", ada, which=f"{bare.uid}:{person.uid}", **{"ratings.nd-choice": "not_needed"})
    assert stored() == {"nd-choice": "not_needed"}


def test_an_assistant_may_record_a_night(ada, there, send, signed_in):
    send("night", ada, client=signed_in("ashby"), **there, **{"ratings.nd-join": "06"})
    assert Account.objects.get().rater_grade == "assistant"


@pytest.mark.parametrize(
    ("who", "title", "button", "meaning"),
    [
        ("amber", "An emptying, taught and seen", "Sign: I taught and saw this",
         "I taught this and saw what is written here."),
        ("ashby", "An emptying, seen", "Sign: I was there and saw this",
         "I was there and saw what is written here."),
    ],
)  # fmt: skip
def test_an_assistant_signs_for_what_was_seen_and_never_that_they_taught(
    ada, there, send, signed_in, who, title, button, meaning
):
    page = words(signed_in(who).get(reverse("emptying", args=[ada.uid])))
    assert title in page and button in page
    assert ("taught" in page) == (who == "amber")
    send("emptying", ada, client=signed_in(who), **there, alone="on")
    assert Account.objects.get().meaning == meaning


def test_meeting_the_stoma_is_care_given_with_nothing_rated(ada, stoma, person, send):
    answer = send("meeting", ada, which=f"{stoma.uid}:{person.uid}", **{"finding.colour": "pink-red"})
    assert answer.status_code == 303
    account = Account.objects.get()
    assert (account.event.kind, account.event.procedure) == ("care", "meeting")
    assert account.finding.colour == "pink-red"
    assert not account.ratings.exists()


def test_a_topic_talked_about_while_meeting_it_is_kept(ada, stoma, person, send):
    send("meeting", ada, which=f"{stoma.uid}:{person.uid}", **{"ratings.t-colour": "told"})
    assert Account.objects.get().event.kind == "teaching"
    assert stored() == {"t-colour": "told"}


def test_a_stoma_without_a_pouch_written_down_can_be_met(ward, ada, person, send):
    bare = ward.stoma(ada, closure=None)
    assert send("meeting", ada, which=f"{bare.uid}:{person.uid}").status_code == 303


def test_meeting_shows_its_prompts_and_the_hard_moments(ada, stoma, amber):
    page = words(amber.get(reverse("meeting", args=[ada.uid])))
    assert "Look at the stoma Good looks like: at their own pace, for as long as they want." in page
    assert "They will not look" in page and "They cry" in page
    assert "The pouch will not stick" not in page
    assert "All of this alone" not in page


@pytest.mark.parametrize("name", ["change", "night", "meeting"])
def test_a_session_begun_is_gone_on_with_where_it_was_begun(name, ada, there, amber):
    said = {**there, "client_id": str(uuid.uuid4()), "field": "place", "value": json.dumps("chair")}
    begun = amber.post(reverse(f"tap-{name}", args=[ada.uid]), said).json()["draft"]
    assert Draft.objects.get().procedure == name
    page = amber.get(reverse("person", args=[ada.uid]))
    address = f"{reverse(name, args=[ada.uid])}?draft={begun}"
    assert address in page.content.decode()
    assert amber.get(address).context["form"]["place"].value() == "chair"


def test_a_persons_page_links_only_what_their_stomas_have(ward, ada, stoma, amber):
    acts = amber.get(reverse("person", args=[ada.uid])).context["page"].acts
    assert "Night drainage" not in [words for _, words in acts.others]
    ward.stoma(ada, "urostomy", "left", outlet="tap")
    acts = amber.get(reverse("person", args=[ada.uid])).context["page"].acts
    assert [words for _, words in acts.first] == ["Record an emptying", "Record a change"]
    assert [words for _, words in acts.others][:3] == ["Care given, or a leak", "Night drainage", "Meeting the stoma"]


def test_an_assistant_is_offered_no_change(ada, stoma, signed_in):
    acts = signed_in("ashby").get(reverse("person", args=[ada.uid])).context["page"].acts
    assert [words for _, words in acts.first] == ["Record an emptying", "Care given, or a leak"]
    assert [words for _, words in acts.others] == ["Meeting the stoma"]


def test_a_meeting_stands_among_the_sessions_in_its_own_words(ada, stoma, person, send, amber):
    send("meeting", ada, which=f"{stoma.uid}:{person.uid}")
    assert "Today 02:14. Met the stoma." in words(amber.get(reverse("person", args=[ada.uid])))
