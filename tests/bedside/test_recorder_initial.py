"""What an account said comes back by the names of the form, so that it can be corrected and lose nothing."""

from datetime import timedelta

import pytest
from django.utils import timezone

from teaching.bedside.recorder_initial import form_of
from teaching.models import Account
from teaching.record.charts import chart_for
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.record.sessions import record_session
from teaching.rules.policy import DEFAULT
from tests.bedside.test_change import ALONE

COLUMNS = (
    "learner_id", "code", "answer", "practice", "reported", "reason", "aids", "entered_as", "note",
)  # fmt: skip


def as_stored(account):
    return sorted(account.ratings.values_list(*COLUMNS), key=str)


def as_said_again(form):
    return sorted(
        ((one.learner.pk, one.code, one.answer, one.practice, one.reported, one.reason, list(one.aids),
          one.entered_as, one.note) for one in form.ratings()),
        key=str,
    )  # fmt: skip


def posted(form):
    """What a browser would send of the page as it stands."""
    body = {}
    for field in form:
        value = field.value()
        if field.name == "began_at":
            body["began_at_0"] = field.field.widget.decompress(value)[0].strftime("%Y-%m-%dT%H:%M")
        elif value not in (None, "", False, []):
            body[field.name] = value
    return body


def shown_and_sent_again(account, stay):
    around = {"chart": chart_for(stay), "policy": DEFAULT, "now": timezone.now() + timedelta(hours=5)}
    again = form_of(account, posted(form_of(account, **around)), **around)
    assert again.is_valid(), again.errors
    return again


@pytest.mark.parametrize(
    "said",
    [
        ALONE,
        ALONE | {"ratings.cut": "03", "reason.cut": "rushed", "aids.cut": ["mirror"], "note.cut": "in a hurry"},
        {"ratings.cut": "06", "practised.cut": "on", "ratings.join": "02"},
        {"alone.put-on": "on", "practice": "on"},
        {"ratings.press": "04", "reported.press": "on", "ratings.t-call": "told", "ratings.hair": "wrong"},
        ALONE | {"minutes": "20", "place": "chair", "language": "Polish", "interpreter": "adult", "broken_off": "on"},
        ALONE | {"finding.colour": "pink-red", "skin.feet": "wet-raw", "finding.width_mm": "32.5"},
    ],
    ids=["alone", "lower", "one practised", "all practice", "reported", "around it", "seen"],
)
def test_an_account_shown_again_in_its_form_says_the_same(said, ward, ada, stoma, send):
    hugo = ward.helper(ada)
    person = ada.learners.get(kind="person")
    more = {"part_who.fit-protect": str(hugo.uid)} if said is ALONE else {}
    answer = send("change", ada, which=f"{stoma.uid}:{person.uid}", **said, **more)
    assert answer.status_code == 303, answer.context["form"].errors
    account = Account.objects.get()
    again = shown_and_sent_again(account, ada)
    assert as_said_again(again) == as_stored(account)
    entry = again.entry(role=account.role)
    for name in ("began_at", "ended_at", "place", "language", "interpreter", "ended_how"):
        assert getattr(entry, name) == getattr(account, name)
    if account.ratings.filter(code="cut").exists() and hasattr(account, "finding"):
        assert (entry.finding.width_mm, dict(entry.finding.skin)) == (account.finding.width_mm, account.finding.skin)


def test_what_no_field_holds_is_carried_as_it_was(ward, ada, stoma):
    """A row that two learners did, and a topic that is not asked: an import may bring both."""
    hugo, person = ward.helper(ada), ada.learners.get(kind="person")
    account = record_session(
        actor=ward.staff["amber"],
        entry=SessionEntry(
            stay=ada, stoma=stoma, procedure="change", began_at=ward.now - timedelta(hours=2),
            ratings=(
                RatingEntry(learner=person, code="cut", answer="02"),
                RatingEntry(learner=hugo, code="cut", answer="06"),
                RatingEntry(learner=person, code="join", answer="06"),
                RatingEntry(learner=person, code="t-food", answer="told"),
            ),
        ),
    )  # fmt: skip
    assert as_said_again(shown_and_sent_again(account, ada)) == as_stored(account)


def test_a_part_that_somebody_else_did_is_said_once_and_not_row_by_row(ward, ada, stoma, send):
    hugo, person = ward.helper(ada), ada.learners.get(kind="person")
    said = ALONE | {"part_who.fit-protect": str(hugo.uid), "ratings.cut": "03", "who.cut": str(person.uid)}
    assert send("change", ada, which=f"{stoma.uid}:{person.uid}", **said).status_code == 303
    around = {"chart": chart_for(ada), "policy": DEFAULT, "now": timezone.now()}
    initial = form_of(Account.objects.get(), **around).initial
    assert initial["part_who.fit-protect"] == str(hugo.uid)
    assert {name: whose for name, whose in initial.items() if name.startswith("who.") and whose} == {
        "who.cut": str(person.uid)
    }
    assert as_said_again(shown_and_sent_again(Account.objects.get(), ada)) == [
        tuple(row) for row in as_stored(Account.objects.get())
    ]


def test_what_was_said_to_be_so_is_not_asked_again_and_another_value_is(ward, ada, stoma, send):
    odd = {"finding.width_mm": "30", "finding.opening_width_mm": "45"}
    said = ALONE | odd | {"which": f"{stoma.uid}:{ada.learners.get(kind='person').uid}"}
    asked = send("change", ada, **said)
    assert asked.status_code == 422
    assert send("change", ada, **said, it_is_so=asked.context["form"].asked).status_code == 303
    account = Account.objects.get()
    around = {"chart": chart_for(ada), "policy": DEFAULT, "now": timezone.now()}
    body = posted(form_of(account, **around))
    assert form_of(account, body, **around).is_valid()
    other = form_of(account, body | {"finding.opening_width_mm": "50"}, **around)
    assert not other.is_valid() and set(other.errors) == {"finding.opening_width_mm"}
