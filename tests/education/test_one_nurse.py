"""One nurse: one's own page, what is still required, confidence kept apart, and asking to be observed."""

from datetime import timedelta

from django.urls import reverse

from teaching.models import ObservationAsk, SelfRating
from teaching.record.arrangements import book_teaching
from teaching.record.beside import rate_beside
from teaching.record.entries import CareEntry, RatingEntry, SessionEntry
from teaching.record.sessions import record_care
from teaching.record.skills import rate_oneself
from tests.bedside.reading import words
from tests.bedside.ward import EMPTYING, NIGHT
from tests.skills import observe


def test_ones_own_page_says_what_is_required_and_offers_no_act_of_another(ward, signed_in, address):
    observe(ward.staff["amber"], ward.staff["basil"], ward.unit, "teach-bowel", "4", setting="simulation")
    page = words(signed_in("basil").get(address("own-skills")))
    assert "Ready for sign-off Not signed off now" in page
    assert "Observed practices: 1 of 3." in page
    assert "1 of the last 2 must be with a person; so far only in simulation." in page
    for act in ("Record a practice", "Withdraw", "Accept a certificate"):
        assert act not in page


def test_the_page_of_another_is_not_for_a_ward_nurse(signed_in, address):
    assert signed_in("basil").get(address("nurse-skills", "amber")).status_code == 403
    assert signed_in("amber").get(address("nurse-skills", "basil")).status_code == 403
    assert signed_in("wilma").get(address("nurse-skills", "basil")).status_code == 404


def test_ones_own_address_among_all_leads_to_the_own_page(signed_in, address):
    assert signed_in("edda").get(address("nurse-skills", "edda"))["Location"] == address("own-skills")


def test_acts_are_for_a_holder_and_withdrawing_for_those_who_answer_for_the_unit(signed_in, address):
    sorrel = words(signed_in("sorrel").get(address("nurse-skills", "basil")))
    edda = words(signed_in("edda").get(address("nurse-skills", "basil")))
    assert "Sign off: Do a change" in sorrel and "Record a practice: Do a change" in sorrel
    assert "Sign off:" not in edda and "Record a practice" not in edda
    assert "Withdraw the sign-off: Do a change" in words(signed_in("edda").get(address("nurse-skills", "amber")))
    assert "Accept a certificate" in words(signed_in("linden").get(address("nurse-skills", "basil")))


def test_confidence_stands_apart_from_what_was_seen(ward, signed_in, address):
    rate_oneself(actor=ward.staff["basil"], skill="change", confidence=2)
    page = words(signed_in("edda").get(address("nurse-skills", "basil")))
    assert page.index("Observed") < page.index("How sure they feel") < page.index("2 of 6, said 13 May 2026")
    seen = page[: page.index("How sure they feel")]
    assert "of 6" not in seen


def test_saying_how_sure_one_feels(send, address):
    to = address("rate-oneself", skill="change")
    assert send("basil", to).status_code == 422
    answer = send("basil", to, confidence="4")
    assert (answer.status_code, answer["Location"]) == (303, address("own-skills"))
    assert SelfRating.objects.get().confidence == 4


def changed(ward, stay, stoma, hours_ago=36):
    at = NIGHT - timedelta(hours=hours_ago)
    record_care(actor=ward.staff["amber"], entry=CareEntry(stay=stay, stoma=stoma, procedure="change", at=at))


def test_what_falls_due_after_leaving_is_not_offered(ward, ada, stoma, signed_in, address):
    changed(ward, ada, stoma, hours_ago=20)
    assert "Bed A1" not in words(signed_in("basil").get(address("ask-to-be-observed", skill="change")))


def test_asking_is_paired_with_a_due_change_by_bed_and_time(ward, ada, stoma, signed_in, send, address):
    """Changed 36 hours ago and due every 72 hours; she leaves on Friday."""
    changed(ward, ada, stoma)
    to = address("ask-to-be-observed", skill="teach-bowel")
    page = signed_in("basil").get(to)
    assert "Bed A1, tomorrow 14:14" in words(page) and "Fernhollow" not in words(page)
    key = page.context["form"].fields["at"].choices[1][0]
    assert send("basil", to, at=key).status_code == 303
    asked = ObservationAsk.objects.get()
    assert (asked.state, asked.bed, asked.paired_at) == ("paired", "A1", NIGHT + timedelta(hours=36))
    assert "at the change tomorrow 14:14, bed A1" in words(signed_in("basil").get(address("own-skills")))
    edda = words(signed_in("edda").get(address("nurse-skills", "basil")))
    assert "paired with a due change" in edda and "A1" not in edda and "14:14" not in edda


def test_an_educator_may_ask_too_and_is_shown_no_bed(ada, stoma, signed_in, address):
    page = words(signed_in("edda").get(address("ask-to-be-observed", skill="change")))
    assert "At any time" in page and "Bed" not in page


def test_taking_an_ask_back(send, address):
    assert send("basil", address("take-back-ask", skill="change")).status_code == 422
    send("basil", address("ask-to-be-observed", skill="change"), at="any")
    assert send("basil", address("take-back-ask", skill="change")).status_code == 303
    assert ObservationAsk.objects.order_by("-number").first().state == "withdrawn"


def test_a_holder_pairs_an_ask_from_the_list_and_the_nurse_reads_who_and_when(
    ward, ada, stoma, signed_in, send, address
):
    """Changed 36 hours ago and due every 72 hours; she leaves on Friday."""
    changed(ward, ada, stoma)
    to = address("pair-ask", "basil", "change")
    assert to not in signed_in("amber").get(address("who-teaches")).content.decode()
    send("basil", address("ask-to-be-observed", skill="change"), at="any")
    listed = signed_in("amber").get(address("who-teaches"))
    assert to in listed.content.decode()
    assert to not in signed_in("edda").get(address("who-teaches")).content.decode()
    page = signed_in("amber").get(to)
    assert "Bed A1, tomorrow 14:14" in words(page)
    assert "Fernhollow" not in words(page) and "At any time" not in words(page)
    assert send("amber", to, at="any").status_code == 422
    assert send("amber", to, at=page.context["form"].fields["at"].choices[0][0]).status_code == 303
    own = words(signed_in("basil").get(address("own-skills")))
    assert "You asked to be observed at the change tomorrow 14:14, bed A1." in own
    assert "Amber Oakley chose this change, today 02:14." in own
    said = "Basil Thorne asks to be observed: do a change, at the change tomorrow 14:14, bed A1, as Amber Oakley chose."
    assert said in words(signed_in("sorrel").get(address("who-teaches")))
    edda = words(signed_in("edda").get(address("nurse-skills", "basil")))
    assert "paired with a due change" in edda and "A1" not in edda


def test_pairing_is_refused_where_nothing_is_asked_or_the_skill_is_not_held(ada, stoma, send, address, ward):
    changed(ward, ada, stoma)
    key = f"{(NIGHT + timedelta(hours=36)).isoformat()} {ada.uid}"
    answer = send("amber", address("pair-ask", "basil", "change"), at=key)
    assert answer.status_code == 422 and "does not ask any more" in words(answer)
    answer = send("basil", address("pair-ask", "amber", "change"), at=key)
    assert answer.status_code == 422 and "Only somebody signed off then" in words(answer)
    assert not ObservationAsk.objects.exists()


def test_where_no_change_is_planned_it_is_said(signed_in, send, address):
    send("basil", address("ask-to-be-observed", skill="change"), at="any")
    assert "No change that fits this skill is planned now." in words(
        signed_in("amber").get(address("pair-ask", "basil", "change"))
    )


def test_an_ask_may_be_paired_with_a_booked_change(ward, ada, stoma, signed_in, address):
    book_teaching(
        actor=ward.staff["amber"], stay=ada, at=NIGHT + timedelta(hours=9),
        learners=[ada.learners.get(kind="person")],
    )  # fmt: skip
    assert "Bed A1, today 11:14" in words(signed_in("basil").get(address("ask-to-be-observed", skill="change")))


def test_a_skill_that_is_none_is_not_there(ward, signed_in):
    to = reverse("rate-oneself", args=[ward.unit.uid, "juggling"])
    assert signed_in("basil").get(to).status_code == 404


def test_one_nurse_costs_the_same_queries_with_one_practice_and_with_many(ward, signed_in, address, assert_selects):
    client = signed_in("sorrel")
    client.get(address("nurse-skills", "basil"))
    for number in range(4):
        observe(ward.staff["amber"], ward.staff["basil"], ward.unit, "teach-bowel", hours_ago=number + 1)
    with assert_selects(18):
        client.get(address("nurse-skills", "basil"))


def test_reading_the_levels_alike_is_offered_and_no_part_of_a_sign_off(ward, ada, stoma, signed_in, address):
    held = ward.teach(ada, stoma, 3)
    told = [RatingEntry(learner=ada.learners.get(), code=code, answer="06") for code in EMPTYING]
    entry = SessionEntry(
        stay=ada, stoma=stoma, procedure="emptying", began_at=held.began_at, ratings=tuple(told)
    )
    assert "Reading the levels alike" not in words(signed_in("edda").get(address("nurse-skills", "basil")))
    rate_beside(actor=ward.staff["basil"], event=held.event, entry=entry)
    page = words(signed_in("edda").get(address("nurse-skills", "basil")))
    assert "Reading the levels alike To talk about, never a verdict" in page
    assert "Rated together with somebody signed off: 1 session, 1 read alike." in page
    assert "Not shown yet" in page and "Fernhollow" not in page
    assert "Reading the levels alike" not in words(signed_in("edda").get(address("nurse-skills", "amber")))
