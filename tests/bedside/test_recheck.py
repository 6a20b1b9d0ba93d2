"""The recheck tap: it renews the date of what is held, and is offered for nothing else."""

from django.urls import reverse

from teaching.models import Account, Rating
from teaching.record.charts import chart_for
from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT
from tests.bedside.reading import words
from tests.bedside.ward import URINE


def held(ward, stay, stoma, codes=None):
    """Emptying independent: two showings on two occasions, one by somebody signed off."""
    from tests import skills

    skills.publish(ward.staff["linden"])
    skills.certify(ward.staff["linden"], ward.staff["amber"], "teach-bowel", days_left=30)
    skills.certify(ward.staff["linden"], ward.staff["amber"], "teach-urostomy", days_left=30)
    for hours in (40, 30):
        ward.teach(stay, stoma, hours, "06", **({"codes": codes} if codes else {}))


def test_one_tap_and_a_signature(ward, ada, stoma, send, amber):
    held(ward, ada, stoma)
    person = ada.learners.get(kind="person")
    page = amber.get(reverse("recheck", args=[ada.uid]))
    assert "Ada Fernhollow: emptying" in words(page)
    before = assess(chart_for(ada), DEFAULT, ward.now)
    answer = send("recheck", ada, which=f"emptying:{stoma.uid}:{person.uid}")
    assert (answer.status_code, answer["Location"]) == (303, reverse("person", args=[ada.uid]))
    account = Account.objects.get(event__kind="recheck")
    assert (account.event.procedure, account.meaning) == ("emptying", "I saw that all of this is still managed alone.")
    after = assess(chart_for(ada), DEFAULT, ward.now)
    dates = [[one.holds_until for one in found.standings if one.held] for found in (before, after)]
    assert all(late > early for early, late in zip(*dates, strict=True)) and dates[0]


def test_a_urostomy_says_its_own_procedure(ward, ada, amber):
    tap = ward.stoma(ada, "urostomy", outlet="tap")
    held(ward, ada, tap, URINE)
    assert "Ada Fernhollow: emptying (urostomy)" in words(amber.get(reverse("recheck", args=[ada.uid])))


def test_where_nothing_is_held_there_is_no_button(ward, ada, stoma, amber, send):
    ward.teach(ada, stoma, 30, "04")
    page = amber.get(reverse("recheck", args=[ada.uid]))
    assert "Nothing is held yet that a recheck could renew" in words(page)
    assert 'form="note"' not in page.content.decode()
    assert send("recheck", ada, which="emptying").status_code in (303, 422)
    assert not Account.objects.filter(event__kind="recheck").exists()


def test_nothing_tapped_or_something_not_held_is_refused(ward, ada, stoma, send):
    held(ward, ada, stoma)
    person = ada.learners.get(kind="person")
    for which, sentence in (("", "Tap who and what you watched."), (f"night:{stoma.uid}:{person.uid}", "Tap one of")):
        answer = send("recheck", ada, which=which)
        assert answer.status_code == 422 and sentence in words(answer)
    answer = send("recheck", ada, which=f"emptying:{stoma.uid}:{person.uid}", at_0="2026-05-13T09:00")
    assert answer.status_code == 422 and "This time is still to come" in words(answer)
    assert Rating.objects.filter(account__event__kind="recheck").count() == 0


def test_it_is_a_registered_nurses_tap(ada, stoma, signed_in, amber):
    for who in ("tansy", "ashby"):
        assert signed_in(who).get(reverse("recheck", args=[ada.uid])).status_code == 403
        assert "Still manages all of it alone" not in words(signed_in(who).get(reverse("person", args=[ada.uid])))
    assert "Still manages all of it alone" in words(amber.get(reverse("person", args=[ada.uid])))
