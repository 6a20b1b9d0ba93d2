"""What the recorder says and asks: nothing that was said is lost without a word, nothing is said that is not so."""

import pytest
from django.urls import reverse

from teaching.models import Account
from teaching.record.staff import grant_role
from tests.bedside.reading import words
from tests.bedside.ward import HOUSE


def which(stay, stoma):
    return f"{stoma.uid}:{stay.learners.get(kind='person').uid}"


@pytest.mark.parametrize(
    ("field", "value"),
    [("reason", "rushed"), ("aids", "mirror"), ("note", "The clip was new."), ("reported", "on"), ("practised", "on")],
)
def test_what_is_said_of_a_step_without_an_answer_is_asked_for_and_not_lost(field, value, ada, stoma, send):
    said = {"which": which(ada, stoma), "ratings.em-open": "06", f"{field}.em-close": value}
    answer = send("emptying", ada, **said)
    assert answer.status_code == 422
    assert "Shut the outlet and check it: More is said of this step, but not how it went." in words(answer)
    assert not Account.objects.exists()
    assert send("emptying", ada, **said, **{"ratings.em-close": "04"}).status_code == 303


def test_a_note_on_a_step_done_alone_with_the_rest_is_stored(ada, stoma, send):
    said = {"which": which(ada, stoma), "alone": "on", "note.em-close": "Felt it twice."}
    assert send("emptying", ada, **said).status_code == 303
    assert Account.objects.get().ratings.get(code="em-close").note == "Felt it twice."


def test_a_length_of_time_carries_no_code_and_a_level_does(ada, stoma, amber):
    page = words(amber.get(reverse("change", args=[ada.uid])))
    assert "10 minutes" in page and "10 10 minutes" not in page
    assert "04 You had to cue" in page


def test_a_decision_is_said_as_judged_where_its_part_is_confirmed(ada, stoma, amber):
    page = amber.get(reverse("change", args=[ada.uid])).content.decode()
    assert page.count('data-alone="judged rightly"') and page.count('data-alone="alone"')
    rows = amber.get(reverse("change", args=[ada.uid])).context["form"].rows.values()
    assert page.count('data-alone="judged rightly"') == sum(row.item.decision for row in rows if not row.item.topic)


def test_lengths_are_said_as_they_were_written(ward, ada, stoma, send, amber):
    said = {
        "which": which(ada, stoma), "alone.prepare": "on", "finding.width_mm": "30", "finding.height_mm": "31.5",
        "skin.own-left": "good",
    }  # fmt: skip
    assert send("change", ada, **said).status_code == 303
    read = words(amber.get(reverse("session", args=[Account.objects.get().event.uid])))
    assert "Stoma across, mm: 30 " in read and "Stoma up and down, mm: 31.5 " in read
    assert "Skin on the person's own left: same as the skin near it" in read


def test_help_that_was_needed_with_every_step_is_said_once(ward, ada, stoma, amber):
    ward.teach(ada, stoma, 3, "02")
    assert "Emptying: needed help with all 5 (02); seen by Amber Oakley." in words(
        amber.get(reverse("person", args=[ada.uid]))
    )


def test_a_late_entry_says_when_it_happened_as_it_is_signed(ada, stoma, send, amber):
    said = {"which": which(ada, stoma), "alone": "on"}
    answer = send("emptying", ada, **said, began_at_0="2026-05-12T23:10")
    assert "Signed 02:14. It happened yesterday 23:10." in words(amber.get(answer.url))
    answer = send("emptying", ada, **said)
    assert "Signed 02:14." in words(amber.get(answer.url)) and "It happened" not in words(amber.get(answer.url))


def test_a_correction_says_the_time_as_signed_and_counts_its_steps(ward, ada, stoma, amber):
    made = ward.teach(ada, stoma, 3, "06")
    page = words(amber.get(reverse("correct-account", args=[made.uid])))
    assert "When, where, how long (as signed, yesterday 23:14)" in page
    assert "3. Why" in page and "4. Ada Fernhollow" in page
    plain = words(amber.get(reverse("emptying", args=[ada.uid])))
    assert "(now, 02:14)" in plain and "3. Ada Fernhollow" in plain


def test_a_students_signature_says_that_it_waits_and_the_list_says_for_what(ward, ada, stoma, send, signed_in, amber):
    tansy = signed_in("tansy")
    answer = send("emptying", ada, client=tansy, which=which(ada, stoma), alone="on")
    assert "Signed 02:14. It waits for a registered nurse to co-sign." in words(tansy.get(answer.url))
    waiting = words(amber.get(reverse("waiting", args=[ward.unit.uid])))
    assert "Bed A1: emptying, Tansy Reed, today 02:14" in waiting


def test_whoever_reads_it_is_not_called_you_and_one_learner_is_named_once(ward, ada, stoma, signed_in):
    made = ward.teach(ada, stoma, 2, ["06", "04", "06", "06", "06"], by="tansy")
    for address in (reverse("session", args=[made.event.uid]), reverse("cosign", args=[made.uid])):
        read = words(signed_in("amber").get(address))
        assert "Who: Ada Fernhollow" in read and "06 Alone, nobody spoke: Choose when to empty; Wipe the end" in read
        assert "04 A nurse had to cue, or steady with a touching hand: Lift the end" in read
        assert "You watched" not in read and "You had" not in read
    both = ward.teach(ada, stoma, 1, "06", learner=ward.helper(ada))
    assert "Who: Hugo, husband" in words(signed_in("amber").get(reverse("session", args=[both.event.uid])))


def test_what_two_learners_did_is_named_row_by_row(ada, stoma, send, ward, amber):
    hugo = ward.helper(ada)
    said = {"ratings.em-open": "06", "ratings.em-close": "06", "who.em-close": str(hugo.uid)}
    assert send("emptying", ada, which=which(ada, stoma), **said).status_code == 303
    read = words(amber.get(reverse("session", args=[Account.objects.get().event.uid])))
    assert "06 Alone, nobody spoke (Hugo, husband): Shut the outlet and check it" in read and "Who:" not in read


def test_steps_with_the_same_answer_are_said_together_and_many_are_counted(ward, ada, stoma, amber):
    ward.teach(ada, stoma, 9, ["04", "04", "03", "06", "06"])
    ward.teach(ada, stoma, 3, ["04", "04", "04", "04", "03"], practice=False)
    read = words(amber.get(reverse("person", args=[ada.uid])))
    assert (
        "alone on 2 of 5; needed help: Choose when to empty, Lift the end, open it, then lower it (each 04), "
        "Wipe the end, inside and out (03)"
    ) in read
    codes = ("prep-kit", "prep-hands", "off-peel", "off-cover", "clean-dry", "look-stoma")
    ward.teach(ada, stoma, 1, ["04"] * 5 + ["02"], codes=codes, procedure="change")
    read = words(amber.get(reverse("person", args=[ada.uid])))
    assert "needed help: 5 steps (each 04), Look at the stoma: colour, wetness, size (02)" in read


def test_the_recorders_topics_begin_with_what_is_due_and_hold_the_rest_behind_one_word(ward, ada, stoma, amber):
    page = amber.get(reverse("change", args=[ada.uid])).context["page"]
    first, rest = ([item.code for item, _ in rows] for rows in (page.topics, page.other_topics))
    assert first == ["t-call", "t-signs", "t-leak", "t-colour", "t-fluid", "t-block"]
    assert rest == ["t-alone", "t-bleed", "t-skin", "t-shrink", "t-pills", "t-order"]


def test_a_topic_behind_the_word_is_in_sight_once_it_is_answered(ada, stoma, send, amber):
    said = {"which": which(ada, stoma), "alone": "on", "ratings.t-skin": "told"}
    wrong = send("emptying", ada, **said, **{"note.em-close": "x" * 301})
    assert wrong.status_code == 422 and "t-skin" in [item.code for item, _ in wrong.context["page"].topics]
    assert send("emptying", ada, **said).status_code == 303
    assert Account.objects.get().ratings.get(code="t-skin").answer == "told"
    corrected = amber.get(reverse("correct-account", args=[Account.objects.get().uid])).context["page"]
    assert "t-skin" in [item.code for item, _ in corrected.topics]


def test_whoever_may_write_nothing_beside_it_sees_no_empty_heading(ward, ada, stoma, signed_in):
    account = ward.teach(ada, stoma, 3, ["06", "03", None, None, None])
    grant_role(actor=HOUSE, clinician=ward.staff["edda"].clinician, role="planner", unit=ward.unit)
    read = words(signed_in("edda").get(reverse("session", args=[account.event.uid])))
    assert "03 A nurse did less than half of the work" in read and "Besides" not in read
    assert "Besides Add a note beside it" in words(signed_in("amber").get(reverse("session", args=[account.event.uid])))
