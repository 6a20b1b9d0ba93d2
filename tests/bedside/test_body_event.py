"""What changes in the body is stored in a tap, and asks for what was shown before once more (I8)."""

from django.urls import reverse

from teaching.models import BodyEvent
from teaching.record.charts import chart_for
from teaching.record.places import policy_for
from teaching.record.stomas import note_body_event
from teaching.rules.assess import assess
from tests.bedside.reading import words


def kept():
    return list(BodyEvent.objects.order_by("pk").values_list("code", "change"))


def test_delirium_begins_and_is_over(ward, ada, stoma, send, amber):
    assert send("body-event", ada, what="delirium.began.").status_code == 303
    amber.get(reverse("person", args=[ada.uid]))  # where it says that it was stored
    page = words(amber.get(reverse("body-event", args=[ada.uid])))
    assert "Delirium: over" in page and "Delirium began" not in page
    send("body-event", ada, what="delirium.ended.")
    assert kept() == [("delirium", "began"), ("delirium", "ended")]


def test_it_reopens_what_was_shown_before(ward, ada, stoma, send):
    ward.teach(ada, stoma, 40)
    ward.teach(ada, stoma, 10)
    send("body-event", ada, what="delirium.began.", at_0="2026-05-12 20:00")
    send("body-event", ada, what="delirium.ended.")
    found = assess(chart_for(ada), policy_for(ward.unit, ward.now), ward.now)
    (row,) = (one for one in found.standings if one.code == "em-open")
    assert row.state == "show again"


def test_real_stool_is_asked_of_a_bowel_stoma_alone(ward, ada, stoma, send, amber):
    ward.stoma(ada, "urostomy", "left", outlet="tap")
    page = words(amber.get(reverse("body-event", args=[ada.uid])))
    assert page.count("Real stool has not come yet (asked)") == 1
    assert page.count("Stents are in place") == 1
    send("body-event", ada, what=f"no-stool-yet.began.{stoma.uid}")
    assert "Real stool has come (asked), right stoma" in words(amber.get(reverse("body-event", args=[ada.uid])))


def test_a_rod_that_is_out_can_only_follow_a_rod(ward, ada, stoma, send):
    answer = send("body-event", ada, what=f"rod.ended.{stoma.uid}")
    assert (answer.status_code, kept()) == (422, [])
    note_body_event(actor=ward.staff["amber"], stay=ada, code="rod", change="began", at=ward.now, stoma=stoma)
    assert send("body-event", ada, what=f"rod.ended.{stoma.uid}").status_code == 303


def test_bad_input_changes_nothing(ada, stoma, send):
    assert "Tap what has changed." in words(send("body-event", ada))
    late = send("body-event", ada, what="delirium.began.", at_0="2026-05-14 07:00")
    assert "This time is still to come." in words(late)
    assert kept() == []


def test_whoever_is_at_the_bedside_may_note_it(ada, stoma, send, signed_in):
    """An assistant sees it first at night; noting it can only ask for more, never count for anything."""
    assert send("body-event", ada, client=signed_in("ashby"), what="delirium.began.").status_code == 303
