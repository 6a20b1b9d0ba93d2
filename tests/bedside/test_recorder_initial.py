"""What an account said comes back by the names of the form, so that it can be corrected and lose nothing."""

from datetime import timedelta

import pytest
from django.utils import timezone

from teaching.bedside.recorder_form import RecorderForm
from teaching.bedside.recorder_initial import said_in
from teaching.bedside.recorders import recorder_of
from teaching.models import Account
from teaching.record.charts import chart_for
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
    account, chart = Account.objects.get(), chart_for(ada)
    around = {
        "recorder": recorder_of(account.event.procedure), "stay": ada, "chart": chart, "policy": DEFAULT,
        "now": timezone.now() + timedelta(hours=5), "at": account.began_at,
    }  # fmt: skip
    shown = RecorderForm(initial=said_in(account, chart.checklist), **around)
    again = RecorderForm(posted(shown), **around)
    assert again.is_valid(), again.errors
    assert as_said_again(again) == as_stored(account)
    entry = again.entry(role=account.role)
    for name in ("began_at", "ended_at", "place", "language", "interpreter", "ended_how"):
        assert getattr(entry, name) == getattr(account, name)
    if account.ratings.filter(code="cut").exists() and hasattr(account, "finding"):
        assert (entry.finding.width_mm, dict(entry.finding.skin)) == (account.finding.width_mm, account.finding.skin)
