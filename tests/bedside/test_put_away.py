"""A session begun by mistake is put away: out of the way, readable for good, and nothing signed is lost."""

import json
import uuid

import pytest
from django.urls import reverse

from teaching.models import Account, Caution, Draft, DraftTap, TrailLine
from teaching.record.beside import record_part
from teaching.record.charts import chart_for
from teaching.record.drafts import begin_draft, drop_draft, put_away_draft, take_over_draft, tap
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.record.refusals import Refused
from tests.bedside.reading import words

BEGUN = "Begun today 02:14 by you, not signed."


@pytest.fixture
def draft(ward, ada, stoma):
    """Amber began an emptying and tapped one row."""
    made = begin_draft(actor=ward.staff["amber"], stay=ada, stoma=stoma, procedure="emptying")
    tap(actor=ward.staff["amber"], draft=made, client_id=uuid.uuid4(), field="ratings.em-when", value="04")
    return made


def which(stay, stoma):
    return f"{stoma.uid}:{stay.learners.get(kind='person').uid}"


def entry(stay, stoma, code="em-when", **more):
    rating = RatingEntry(learner=stay.learners.get(kind="person"), code=code, answer="04")
    began = stay.drafts.get().begun_at
    return SessionEntry(stay=stay, stoma=stoma, procedure="emptying", began_at=began, ratings=(rating,), **more)


def test_one_link_one_question_and_it_is_out_of_the_way(draft, ada, amber, send):
    person = reverse("person", args=[ada.uid])
    address = reverse("put-away", args=[draft.uid])
    assert BEGUN in words(amber.get(person)) and address in amber.get(person).content.decode()
    asked = words(amber.get(address))
    assert "Put this draft away" in asked and "Amber Oakley. Choose when to empty: You had to cue" in asked
    answer = send("put-away", draft, why="Wrong person tapped.")
    assert (answer.status_code, answer["Location"]) == (303, person)
    assert BEGUN not in words(amber.get(person))
    assert "recording now" not in words(amber.get(reverse("huddle", args=[ada.now.unit.uid])))
    assert Draft.objects.get().state == "dropped"


def test_what_was_tapped_stays_readable_with_who_and_why(draft, ada, amber, send, signed_in):
    send("put-away", draft, why="Wrong person tapped.")
    for name in ("amber", "basil"):
        client = signed_in(name)
        assert "Emptying, begun today 02:14 by Amber Oakley" in words(client.get(reverse("person", args=[ada.uid])))
        read = client.get(reverse("put-away", args=[draft.uid]))
        assert "Put away today 02:14 by Amber Oakley: Wrong person tapped." in words(read)
        assert "Amber Oakley. Choose when to empty: You had to cue" in words(read)
        assert 'form="note"' not in read.content.decode()
    assert DraftTap.objects.filter(field="ratings.em-when").exists()


def test_the_reason_may_be_left_out_and_the_trail_holds_no_word_of_it(draft, send):
    assert send("put-away", draft, why="").status_code == 303
    line = TrailLine.objects.filter(verb="put_away_draft").get()
    assert (line.outcome, str(draft.uid) in line.object) == ("done", True)


def test_a_reason_too_long_is_refused_beside_its_field_and_nothing_is_stored(draft, send):
    answer = send("put-away", draft, why="x" * 301)
    assert answer.status_code == 422 and "Shorten this to 300 characters." in words(answer)
    assert Draft.objects.get().state == "open" and not DraftTap.objects.filter(field="put-away").exists()


def test_another_nurses_is_taken_over_first(draft, signed_in, send, ward):
    basil = signed_in("basil")
    page = basil.get(reverse("put-away", args=[draft.uid]))
    assert "Amber Oakley has this session. Take it over first" in words(page)
    assert reverse("take-over", args=[draft.uid]) in page.content.decode()
    answer = send("put-away", draft, client=basil, why="")
    assert answer.status_code == 422 and "Take it over first, then put it away." in words(answer)
    take_over_draft(actor=ward.staff["basil"], draft=draft)
    assert send("put-away", draft, client=basil, why="").status_code == 303


def test_whoever_left_it_still_signs_their_part_after_the_other_put_it_away(draft, ward, ada, stoma, amber):
    taken = take_over_draft(actor=ward.staff["basil"], draft=draft)
    put_away_draft(actor=ward.staff["basil"], draft=taken)
    person = words(amber.get(reverse("person", args=[ada.uid])))
    assert "What you tapped before that is not signed yet. Sign your part" in person
    record_part(actor=ward.staff["amber"], draft=draft, entry=entry(ada, stoma))
    assert [(one.code, one.witness.name) for one in chart_for(ada).ratings] == [("em-when", "Amber Oakley")]
    with pytest.raises(Refused, match="dropped"):
        record_part(actor=ward.staff["basil"], draft=draft, entry=entry(ada, stoma, "em-open"))


def test_a_part_is_put_away_by_whoever_tapped_it_and_the_session_goes_on(draft, ward, ada, amber, signed_in, send):
    take_over_draft(actor=ward.staff["basil"], draft=draft)
    assert "Put my part away" in words(amber.get(reverse("put-away", args=[draft.uid])))
    assert send("put-away", draft, why="").status_code == 303
    assert "Sign your part" not in words(amber.get(reverse("person", args=[ada.uid])))
    assert Draft.objects.get().state == "open"
    assert BEGUN in words(signed_in("basil").get(reverse("person", args=[ada.uid])))
    assert send("put-away", draft, why="").status_code == 422


def test_what_is_signed_is_not_put_away(draft, ward, ada, stoma, send):
    take_over_draft(actor=ward.staff["basil"], draft=draft)
    record_part(actor=ward.staff["amber"], draft=draft, entry=entry(ada, stoma))
    answer = send("put-away", draft, why="")
    assert answer.status_code == 422 and "You have signed your part of this already" in words(answer)
    record_part(actor=ward.staff["basil"], draft=Draft.objects.get(), entry=entry(ada, stoma, "em-open"))
    with pytest.raises(Refused, match="already signed or put away"):
        put_away_draft(actor=ward.staff["basil"], draft=draft)
    assert Account.objects.count() == 2


def test_a_caution_raised_from_it_runs_on(draft, ada, stoma, amber, send):
    body = {
        "which": which(ada, stoma), "field": "finding.colour", "value": '"dark"', "draft": str(draft.uid),
        "client_id": str(uuid.uuid4()),
    }  # fmt: skip
    assert amber.post(reverse("tap-emptying", args=[ada.uid]), body).json()["cautions"]
    assert "A caution that was raised from it runs on." in words(amber.get(reverse("put-away", args=[draft.uid])))
    send("put-away", draft, why="")
    assert Caution.objects.count() == 1 and len(chart_for(ada).cautions) == 1


def test_another_device_is_told_and_its_next_tap_begins_anew(draft, ada, stoma, amber, send):
    send("put-away", draft, why="")
    body = {"which": which(ada, stoma), "field": "ratings.em-open", "value": '"06"'}
    told = amber.post(
        reverse("tap-emptying", args=[ada.uid]), body | {"draft": str(draft.uid), "client_id": str(uuid.uuid4())}
    )
    assert told.status_code == 409 and told.json()["anew"] is True
    assert told.json()["sentence"].startswith("Not saved: Amber Oakley has put this session away.")
    again = amber.post(reverse("tap-emptying", args=[ada.uid]), body | {"client_id": str(uuid.uuid4())})
    assert again.status_code == 200 and again.json()["draft"] != str(draft.uid)


def test_signing_on_another_device_says_so_and_signing_again_records_it_anew(draft, ada, stoma, send):
    send("put-away", draft, why="")
    said = {"which": which(ada, stoma), "ratings.em-open": "06"}
    first = send("emptying", ada, draft=str(draft.uid), **said)
    assert first.status_code == 422 and "has put this session away" in words(first)
    assert 'name="draft" value=""' in first.content.decode() and not Account.objects.exists()
    assert send("emptying", ada, draft="", **said).status_code == 303
    assert Account.objects.get().event.uid != draft.event_uid


def test_what_a_device_kept_of_a_draft_begun_anew_for_another_stoma_is_not_called_put_away(
    draft, ada, stoma, amber, ward
):
    drop_draft(actor=ward.staff["amber"], draft=draft)
    answer = sent_later(draft, ada, stoma, amber, ward)
    assert answer["sentences"] == ["This session was dropped meanwhile. What this device had kept stands in a new one."]
    assert answer["draft"] != str(draft.uid) and Draft.objects.filter(state="open").count() == 1


def test_what_a_device_kept_without_a_network_stands_in_a_new_one(draft, ada, stoma, amber, send, ward):
    send("put-away", draft, why="")
    answer = sent_later(draft, ada, stoma, amber, ward)
    assert answer["sentences"] == [
        "This session was put away meanwhile. What this device had kept stands in a new one."
    ]
    assert answer["draft"] != str(draft.uid) and Draft.objects.filter(state="open").count() == 1


def sent_later(draft, ada, stoma, amber, ward):
    """One tap that a device kept of this draft, sent now."""
    from teaching.access.device import token_for
    from teaching.bedside.kept_taps import version_of

    one = {"id": str(uuid.uuid4()), "which": which(ada, stoma), "field": "ratings.em-open", "value": "06", "base": ""}
    return amber.post(
        reverse("kept-taps"),
        {
            "token": token_for(ward.user("amber"), str(ada.uid), "emptying"), "taps": json.dumps([one]),
            "checklist": version_of(chart_for(ada)), "draft": str(draft.uid),
        },
    ).json()  # fmt: skip
