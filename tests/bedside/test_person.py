"""One person's page: what stands out, teach next, still needed, the grid, wear, sessions."""

from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.models import TrailLine
from teaching.record.cautions import raise_caution, tell_caution
from teaching.record.entries import CareEntry, FindingEntry
from teaching.record.sessions import record_care
from tests.bedside.reading import words
from tests.bedside.ward import NIGHT


@pytest.fixture
def opened(ada, amber):
    return lambda: amber.get(reverse("person", args=[ada.uid]))


def cells(response, title):
    """The cells of one row of the first grid: kind and answer."""
    grid = response.context["page"].grids[0]
    row = next(row for row in grid.rows if row.item.title == title)
    return [(cell.kind, cell.answer) for cell in row.cells]


def test_the_band_holds_two_identifiers_bed_and_stoma(ada, stoma, opened):
    assert "Ada Fernhollow born 2 Mar 1958 number 000-A1 bed A1 end ileostomy, right" in words(opened())


def test_the_name_is_in_no_address_and_not_in_the_title(ada, stoma, opened):
    body = opened().content.decode()
    assert "Fernhollow" not in body[body.index("<title>") : body.index("</title>")]
    assert "000-A1" not in reverse("person", args=[ada.uid])


def test_teach_next_gives_the_words_to_ask_back(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 9, ["06", "06", "06", "04", "06"])
    said = words(opened())
    assert "Shut the outlet and check it. Needed help Tue 12 May 17:14 (level 04)." in said
    assert "Ask back: How can you prove to me that it is shut?" in said


def test_with_a_call_now_caution_open_nothing_is_taught_next_and_it_says_why(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 9, ["06", "06", "06", "04", "06"])
    raise_caution(actor=ward.staff["amber"], stay=ada, sign="dark-stoma", at=NIGHT, stoma=stoma)
    said = words(opened())
    assert "Call first: Stoma dark, dusky or pale. Teaching waits." in said
    assert "Teach next Nothing until somebody is told." in said
    assert "Ask back:" not in said and "Nothing beyond what is below." not in said


def test_still_needed_is_said_in_sentences(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 9)
    needed = "Alone Tue 12 May 17:14. Once more alone, in another shift or 4 hours away from it."
    assert f"Shut the outlet and check it; Wash hands: {needed}" in words(opened())


def test_empty_missing_and_not_applicable_are_three_different_things(ward, ada, stoma, opened):
    """Not met before: an empty cell. Met before, not rated this time: "?". Did not apply then: no cell."""
    ward.teach(ada, stoma, 60, ["04", "04", "04", "04", None])
    ward.teach(ada, stoma, 40, ["04", None, "04", "04", "06"])
    shown = opened()
    assert cells(shown, "Lift the end, open it, then lower it") == [("rated", "04"), ("missing", "")]
    assert cells(shown, "Wash hands") == [("empty", ""), ("rated", "06")]


def test_a_row_that_did_not_apply_then_has_no_cell(ward, ada, stoma, opened):
    from teaching.record.stomas import note_body_event

    ward.teach(ada, stoma, 60, "04")
    note_body_event(
        actor=ward.staff["amber"], stay=ada, code="measured", change="began", at=NIGHT - timedelta(hours=50)
    )
    shown = opened()
    assert cells(shown, "Say how much, how thick, what colour") == [("empty", "")]
    assert cells(shown, "Wash hands") == [("rated", "04")]


def test_reported_shows_and_says_so(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 9, "06", reported=True)
    cell = opened().context["page"].grids[0].rows[0].cells[0]
    assert (cell.kind, cell.answer, cell.reported) == ("rated", "06", True)
    said = words(opened())
    assert "told, not seen: 5 steps (each 06)" in said
    assert "alone on" not in said


def test_the_key_stands_on_the_page_that_uses_the_marks(ward, ada, stoma, opened):
    assert "Key to the marks" not in words(opened())
    ward.teach(ada, stoma, 9, practice=True)
    said = words(opened())
    assert "06 Alone. You watched and said nothing" in said
    assert "practice: on a model" in said
    assert "Empty cell: not met before" in said
    assert "?: met before, not rated this time" in said
    assert "No cell: does not apply with this kit" in said


def test_every_mark_used_is_defined_on_the_page(ward, ada, stoma, opened):
    import re

    ward.teach(ada, stoma, 9, ["06", "04", "07", "10", "88"], practice=False)
    body = opened().content.decode()
    defined = set(re.findall(r'<symbol id="([^"]+)"', body))
    assert set(re.findall(r'<use href="#([^"]+)"', body)) <= defined


def test_sessions_are_told_newest_first_in_a_sentence(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 30, ["06", "06", "04", "07", "06"], by="basil")
    entry = CareEntry(
        stay=ada, stoma=stoma, procedure="change", at=NIGHT - timedelta(hours=3),
        finding=FindingEntry(wear_end="leak", leak_track="feet"),
    )  # fmt: skip
    record_care(actor=ward.staff["amber"], entry=entry)
    said = words(opened())
    leak = "Yesterday 23:14. Changed by a nurse; the pouch before ended: leak."
    session = (
        "Mon 20:14. Emptying: alone on 3 of 4; needed help: Wipe the end, inside and out (04); "
        "not rated: Shut the outlet and check it (07); seen by Basil Thorne."
    )
    assert leak in said
    assert session in said
    assert said.index(leak) < said.index(session)


def test_wear_says_what_is_worn_since_when_and_when_it_is_due(ward, ada, stoma, opened):
    assert "No change of it is recorded yet, so when the next is due is not known." in words(opened())
    entry = CareEntry(stay=ada, stoma=stoma, procedure="change", at=NIGHT - timedelta(hours=24))
    record_care(actor=ward.staff["amber"], entry=entry)
    assert "On since yesterday 02:14, 24 h; due Fri 02:14." in words(opened())


def test_the_one_next_action_is_to_record_an_emptying(ada, stoma, opened):
    acts = opened().context["page"].acts.first
    assert acts[0] == (reverse("emptying", args=[ada.uid]), "Record an emptying")


def test_while_somebody_is_to_be_called_the_next_action_is_to_say_who_was_told(ward, ada, stoma, opened):
    caution = raise_caution(actor=ward.staff["amber"], stay=ada, sign="dark-stoma", at=NIGHT, stoma=stoma)
    assert opened().context["page"].acts.first == (
        (reverse("caution-told", args=[caution.uid]), "I told somebody"),
        (reverse("emptying", args=[ada.uid]), "Record an emptying"),
    )
    tell_caution(actor=ward.staff["amber"], caution=caution, whom="Dr Nettle", at=NIGHT)
    assert opened().context["page"].acts.first[0][1] == "Record an emptying"


def test_with_a_closed_pouch_the_next_action_is_a_swap(ward, ada, opened):
    ward.stoma(ada, "colostomy", "left", closure="closed", outlet="")
    acts = opened().context["page"].acts
    assert [words for _, words in acts.first] == ["Record a swap", "Record a change"]
    assert [words for _, words in acts.others] == [
        "Care given, or a leak", "Meeting the stoma", "Topics: told, or in own words", "Still manages all of it alone",
    ]  # fmt: skip


def test_one_trail_line_for_a_persons_page(ada, stoma, opened):
    before = TrailLine.objects.count()
    opened()
    lines = list(TrailLine.objects.order_by("id").values_list("verb", "outcome", "stay"))[before:]
    assert lines == [("see_person", "read", str(ada.uid))]


def test_a_person_of_another_unit_is_not_there(ada, signed_in):
    assert signed_in("wilma").get(reverse("person", args=[ada.uid])).status_code == 404
    assert signed_in("edda").get(reverse("person", args=[ada.uid])).status_code == 403


@pytest.mark.parametrize("sessions", [1, 3])
def test_a_persons_page_costs_the_same_queries_for_one_and_for_three_sessions(
    sessions, ward, ada, stoma, opened, assert_selects
):
    for number in range(sessions):
        ward.teach(ada, stoma, 9 + 8 * number)
    with assert_selects(21):
        opened()


def test_rows_that_need_the_same_are_said_together(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 9, ["01", "01", "06", "06", "06"])
    said = words(opened())
    needed = "Needed help Tue 12 May 17:14 (level 01). Still to be shown alone, on 2 separate occasions."
    assert f"Choose when to empty; Lift the end, open it, then lower it: {needed}" in said


def test_what_is_not_begun_is_one_sentence(ada, stoma, opened):
    said = words(opened())
    assert "Emptying: not started, 5 steps." in said
    assert "Topics: not started, 12 topics." in said


def test_begun_is_said_as_begun_though_one_step_was_never_rated(ward, ada, stoma, opened, signed_in):
    ward.teach(ada, stoma, 30, ["06", "06", "06", "04", None])
    ward.teach(ada, stoma, 9, ["06", "06", "06", None, None])
    said = words(opened())
    assert "Emptying: begun, 4 of 5 steps seen, 3 held." in said and "Emptying: not started" not in said
    shift = words(signed_in("amber").get(reverse("this-shift", args=[ward.unit.uid])))
    assert "Emptying: begun, 4 of 5 steps seen, 3 held." in shift


def test_where_every_step_was_seen_it_says_how_many_are_held(ward, ada, stoma, opened):
    ward.teach(ada, stoma, 30, "04")
    assert "Emptying: none of 5 steps held yet." in words(opened())
