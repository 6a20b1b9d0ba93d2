"""Topics: told is not explained, nothing is answered beforehand, an interpreter is asked for where needed."""

import re
from datetime import timedelta

import time_machine
from django.urls import reverse

from teaching.models import Account, Rating
from teaching.record import learners
from teaching.record.arrangements import book_teaching
from teaching.record.cautions import raise_caution, tell_caution
from teaching.record.charts import chart_for
from teaching.record.stays import plan_home
from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT
from tests.bedside.reading import words


def who(stay, stoma, learner=None):
    return f"{stoma.uid}:{(learner or stay.learners.get(kind='person')).uid}"


def state(stay, code, now):
    found = assess(chart_for(stay), DEFAULT, now)
    return next(one.state for one in found.standings if one.code == code)


def test_told_then_explained_in_own_words_later(ward, ada, stoma, send, signed_in):
    answer = send("topics", ada, which=who(ada, stoma), **{"topic.t-call": "told", "topic.t-leak": "told"})
    assert answer.status_code == 303
    account = Account.objects.get()
    assert (account.event.kind, account.event.procedure, account.role) == ("teaching", "topics", "taught")
    assert dict(Rating.objects.values_list("code", "answer")) == {"t-call": "told", "t-leak": "told"}
    assert state(ada, "t-call", ward.now) == "learning", "told is not explained"
    later = ward.now + timedelta(days=1)
    with time_machine.travel(later, tick=False):
        said = {"which": who(ada, stoma), "topic.t-call": "own_words"}
        assert send("topics", ada, client=signed_in("amber"), **said).status_code == 303
        assert state(ada, "t-call", later) == "independent"


def test_nothing_is_answered_beforehand_and_each_topic_says_how_to_ask_back(ada, stoma, amber):
    page = amber.get(reverse("topics", args=[ada.uid]))
    checked = re.findall(r'<input[^>]*name="([\w.-]+)"[^>]*value="([^"]*)"[^>]* checked', page.content.decode())
    assert {value for _, value in checked} == {""} and "which" not in dict(checked)
    assert "It is 2 in the morning: whom do you ring? Show me the number." in words(page)


def test_an_explained_topic_steps_back_and_says_so(ward, ada, stoma, send, signed_in):
    send("topics", ada, which=who(ada, stoma), **{"topic.t-call": "told"})
    with time_machine.travel(ward.now + timedelta(days=1), tick=False):
        amber = signed_in("amber")
        send("topics", ada, client=amber, which=who(ada, stoma), **{"topic.t-call": "own_words"})
        page = amber.get(reverse("topics", args=[ada.uid])).context["page"]
    assert "t-call" in {item.code for item, *_ in page.others} - {item.code for item, *_ in page.topics}
    assert {item.code: stands for item, _, stands in page.others}["t-call"] == ["Ada Fernhollow: explained"]


def test_a_helper_listens_once_both_said_yes(ward, ada, stoma, amber, send):
    asked, unasked = ward.helper(ada), ward.helper(ada, "Ivo", "son", agreed=False)
    choices = dict(amber.get(reverse("topics", args=[ada.uid])).context["form"].fields["which"].choices)
    assert "Hugo, husband" in choices.values() and not any("Ivo" in said for said in choices.values())
    assert send("topics", ada, which=who(ada, stoma, asked), **{"topic.t-call": "told"}).status_code == 303
    assert send("topics", ada, which=who(ada, stoma, unasked), **{"topic.t-call": "told"}).status_code == 422
    assert Rating.objects.get().learner == asked


def test_an_interpreter_is_asked_for_where_somebody_needs_one(ward, ada, stoma, amber, send):
    address = reverse("topics", args=[ada.uid])
    assert not amber.get(address).context["form"].asks_interpreter
    person = ada.learners.get(kind="person")
    learners.record_need(actor=ward.staff["amber"], learner=person, code="interpreter")
    page = amber.get(address)
    assert page.context["form"].asks_interpreter
    assert "Explained is only what a trained interpreter heard." in words(page)
    assert "Nobody was needed" not in words(page), "nothing is answered beforehand, least of all wrongly"
    send("topics", ada, which=who(ada, stoma), interpreter="trained", **{"topic.t-call": "told"})
    assert Account.objects.get().interpreter == "trained"


def test_what_is_missing_is_said_and_nothing_is_stored(ada, stoma, send):
    for said, sentence in (
        ({"topic.t-call": "told"}, "Tap who listened"),
        ({"which": who(ada, stoma)}, "Nothing is answered yet."),
        ({"which": who(ada, stoma), "topic.t-call": "06"}, "Select a valid choice"),
        ({"which": who(ada, stoma), "topic.t-call": "told", "at_0": "2026-05-14T09:00"}, "This time is still to come"),
    ):
        answer = send("topics", ada, **said)
        assert answer.status_code == 422 and sentence in words(answer), sentence
    assert not Account.objects.exists()


def test_a_student_signs_as_a_student_and_an_assistant_does_not_explain(ada, stoma, send, signed_in):
    said = {"which": who(ada, stoma), "topic.t-call": "told"}
    assert send("topics", ada, client=signed_in("tansy"), **said).status_code == 303
    assert Account.objects.get().role == "student"
    assert send("topics", ada, client=signed_in("ashby"), **said).status_code == 403


def listed(page, which="topics"):
    return [item.code for item, *_ in getattr(page, which)]


def test_what_is_this_persons_to_tell_now_stands_first_and_the_rest_behind_one_word(ada, stoma, amber):
    answer = amber.get(reverse("topics", args=[ada.uid]))
    page = answer.context["page"]
    assert listed(page) == ["t-call", "t-signs", "t-leak", "t-colour", "t-fluid", "t-block"]
    assert {"t-alone", "t-skin", "t-order", "t-wash"} <= set(listed(page, "others"))
    assert "t-uti" not in listed(page) + listed(page, "others"), "no topic of another kind of stoma"
    assert f"All other topics ({len(page.others)})" in words(answer)
    assert not page.others_open


def test_of_a_urostomy_its_own(ward, ada, amber):
    ward.stoma(ada, "urostomy", outlet="tap")
    page = amber.get(reverse("topics", args=[ada.uid])).context["page"]
    assert listed(page) == ["t-call", "t-signs", "t-leak", "t-colour", "t-uti"]


def test_what_was_told_waits_until_it_is_due_and_is_then_asked_back_first(ward, ada, stoma, send, signed_in, amber):
    must = ["t-call", "t-signs", "t-leak", "t-colour", "t-fluid", "t-block"]
    send("topics", ada, which=who(ada, stoma), **{f"topic.{code}": "told" for code in must[:3]})
    address = reverse("topics", args=[ada.uid])
    assert listed(amber.get(address).context["page"]) == must[3:]
    with time_machine.travel(ward.now + timedelta(days=1), tick=False):
        assert listed(signed_in("amber").get(address).context["page"]) == must
        told = {f"topic.{code}": "told" for code in must[3:]}
        send("topics", ada, client=signed_in("amber"), which=who(ada, stoma), **told)
        first = listed(signed_in("amber").get(address).context["page"])
    assert first[:3] == must[:3] and "t-alone" in first and not set(must[3:]) & set(first)


def test_an_answer_behind_the_fold_is_stored_and_a_fault_in_it_opens_it(ada, stoma, send):
    wrong = send("topics", ada, which=who(ada, stoma), **{"topic.t-wash": "06"})
    assert wrong.status_code == 422 and wrong.context["page"].others_open
    assert send("topics", ada, which=who(ada, stoma), **{"topic.t-wash": "told"}).status_code == 303
    assert Rating.objects.get().code == "t-wash"


CALL_FIRST = "Call first: Stoma dark, dusky or pale. Teaching waits."
BOUND = "Bound for a care facility: its nurses take over. Teach what the person asks for."


def test_while_somebody_must_be_called_first_no_topic_comes_first_and_it_says_why(ward, ada, stoma, amber):
    caution = raise_caution(actor=ward.staff["amber"], stay=ada, sign="dark-stoma", at=ward.now, stoma=stoma)
    answer = amber.get(reverse("topics", args=[ada.uid]))
    page, said = answer.context["page"], words(answer)
    assert listed(page) == [] and not page.others_open and "t-call" in listed(page, "others")
    assert f"{CALL_FIRST} All topics (" in said and "Nothing has to be told or asked back now." not in said
    tell_caution(actor=ward.staff["amber"], caution=caution, whom="R. Invented", at=ward.now)
    told = amber.get(reverse("topics", args=[ada.uid]))
    assert listed(told.context["page"])[0] == "t-call" and "Teaching waits" not in words(told)


def test_the_recorder_waits_with_its_topics_too(ward, ada, stoma, amber):
    address = reverse("emptying", args=[ada.uid])
    assert "t-call" in [item.code for item, _ in amber.get(address).context["page"].topics]
    raise_caution(actor=ward.staff["amber"], stay=ada, sign="dark-stoma", at=ward.now, stoma=stoma)
    answer = amber.get(address)
    assert answer.context["page"].topics == [] and CALL_FIRST in words(answer)
    assert "t-call" in [item.code for item, _ in answer.context["page"].other_topics]


def test_bound_for_a_facility_only_booked_topics_come_first(ward, ada, stoma, amber):
    actor, person = ward.staff["amber"], ada.learners.get(kind="person")
    plan_home(actor=actor, stay=ada, at=ward.now + timedelta(days=2), goes_to="facility")
    address, at = reverse("topics", args=[ada.uid]), ward.now + timedelta(hours=9)
    answer = amber.get(address)
    assert listed(answer.context["page"]) == [] and BOUND in words(answer)
    book_teaching(actor=actor, stay=ada, at=at, learners=[person], procedure="emptying")
    assert listed(amber.get(address).context["page"]) == []
    book_teaching(actor=actor, stay=ada, at=at, learners=[person], procedure="topics")
    assert "t-call" in listed(amber.get(address).context["page"])
