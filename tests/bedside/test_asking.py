"""What is unlikely is asked about once and signed as it is; what is impossible is refused; nothing tapped is lost."""

import re

import pytest
from django.urls import reverse

from teaching.models import Account, Finding
from teaching.record.entries import KitEntry
from teaching.record.stomas import fit_kit, note_body_event
from tests.bedside.reading import words

ROW = {"ratings.measure": "05"}


@pytest.fixture
def taps(ada, stoma):
    return {"which": f"{stoma.uid}:{ada.learners.get(kind='person').uid}", **ROW}


def token(answer):
    return re.search(r'name="it_is_so" value="(\w+)"', answer.content.decode())[1]


def seen(**fields):
    return {f"finding.{name}": value for name, value in fields.items()}


def test_sizes_and_the_rest_of_a_finding_are_kept(ada, taps, send):
    answer = send(
        "change", ada, **taps,
        **seen(width_mm="32", height_mm="36.5", opening_width_mm="34", opening_height_mm="39", wear_end="leak",
               leak_track="own-left", noticed_by="learner", stands="level", powder_where=["feet"]),
        **{"skin.feet": "wet-raw"},
    )  # fmt: skip
    assert answer.status_code == 303
    kept = Finding.objects.get()
    assert (float(kept.width_mm), float(kept.height_mm), float(kept.opening_height_mm)) == (32, 36.5, 39)
    assert (kept.wear_end, kept.leak_track, kept.powder_where, kept.skin) == (
        "leak", "own-left", "feet", {"feet": "wet-raw"},
    )  # fmt: skip


def test_an_opening_too_wide_is_asked_about_and_then_signed(ada, taps, send):
    fields = taps | seen(width_mm="32", opening_width_mm="40")
    answer = send("change", ada, **fields)
    assert answer.status_code == 422
    page = words(answer)
    assert "The opening is 40 mm across for a stoma of 32 mm: more than 3 mm of room in all leaves skin bare." in page
    assert answer.context["form"]["finding.opening_width_mm"].value() == "40"
    assert not Account.objects.exists()
    assert send("change", ada, **fields, it_is_so=token(answer)).status_code == 303
    assert float(Finding.objects.get().opening_width_mm) == 40


def test_saying_it_is_so_holds_for_what_was_asked_and_no_more(ada, taps, send):
    asked = token(send("change", ada, **taps, **seen(width_mm="32", opening_width_mm="40")))
    again = send("change", ada, **taps, **seen(width_mm="32", opening_width_mm="48"), it_is_so=asked)
    assert again.status_code == 422
    assert "The opening is 48 mm across" in words(again)


def test_past_the_cutting_limit_is_asked_about(ward, ada, stoma, taps, send):
    fit_kit(actor=ward.staff["amber"], stoma=stoma, entry=KitEntry(cut_limit_mm=45, interval_hours=72))
    answer = send("change", ada, **taps, **seen(width_mm="44", opening_width_mm="47"))
    assert "past the 45 mm to which this flange can be cut. It needs another flange." in words(answer)


def test_powder_on_skin_recorded_good_is_asked_about_and_not_when_prescribed(ada, taps, send):
    good = {f"skin.{region}": "good" for region in ("head", "own-left", "feet", "own-right")}
    answer = send("change", ada, **taps, **good, **seen(powder_where=["feet"]))
    assert "Powder on skin recorded as good (towards the feet): a flange does not stick to powder." in words(answer)
    assert send("change", ada, **taps, **good, **seen(powder_where=["feet", "prescribed"])).status_code == 303


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"width_mm": "3"}, "3 mm is not possible here; measure again, 8 to 120 mm."),
        ({"height_mm": "300"}, "300 mm is not possible here; measure again, 8 to 120 mm."),
        ({"opening_width_mm": "151"}, "151 mm is not possible here; measure again, 8 to 150 mm."),
        ({"width_mm": "wide"}, "Write a number of millimetres, such as 32 or 32.5."),
        ({"leak_track": "feet"}, "A track belongs to a leak."),
    ],
)
def test_what_is_impossible_is_refused_beside_its_field_and_cannot_be_confirmed(ada, taps, send, fields, said):
    answer = send("change", ada, **taps, **seen(**fields), it_is_so="0" * 16)
    assert answer.status_code == 422
    assert said in words(answer)
    name, value = next(iter(fields.items()))
    assert answer.context["form"][f"finding.{name}"].value() == value
    assert answer.context["form"]["ratings.measure"].value() == "05"
    assert not Account.objects.exists()


def test_a_join_on_a_one_piece_pouch_is_refused(ward, ada, stoma, taps, send):
    from teaching.record.entries import RatingEntry, SessionEntry
    from teaching.record.refusals import Refused
    from teaching.record.sessions import record_session

    fit_kit(actor=ward.staff["amber"], stoma=stoma, entry=KitEntry(pieces="one", interval_hours=72))
    rating = RatingEntry(learner=ada.learners.get(kind="person"), code="join", answer="06")
    entry = SessionEntry(stay=ada, stoma=stoma, procedure="change", began_at=ward.now, ratings=(rating,))
    with pytest.raises(Refused, match="A one-piece pouch has nothing to join"):
        record_session(actor=ward.staff["amber"], entry=entry)
    assert not Account.objects.exists()


def test_a_finding_before_surgery_is_refused(ward, ada, taps, send):
    answer = send("change", ada, **taps, **seen(colour="pink-red"), began_at_0="2026-05-08 20:00")
    assert answer.status_code == 422
    assert "This is before surgery, so there was no stoma to look at. Check the time." in words(answer)


def test_tubes_are_asked_about_only_where_there_are_any(ward, ada, stoma, amber, taps, send):
    address = reverse("change", args=[ada.uid])
    assert "Length of rod seen" not in words(amber.get(address))
    note_body_event(actor=ward.staff["amber"], stay=ada, code="rod", change="began", at=ward.now, stoma=stoma)
    page = words(amber.get(address))
    assert "Length of rod seen, mm" in page and "Stents: how many" not in page
    send("change", ada, **taps, **seen(rod_length_mm="65"))
    assert float(Finding.objects.get().rod_length_mm) == 65


def test_colour_is_reminded_of_in_the_first_48_hours(ward, amber):
    """Royal Marsden Manual: watched closely in the first 48 h."""
    said = "First 48 hours: look at the colour each time."
    for days, there in ((1, True), (4, False)):
        stay = ward.stay("Bram", "Quill", f"B{days}", days=days)
        ward.stoma(stay, days=days)
        for name in ("emptying", "change", "person"):
            assert (said in words(amber.get(reverse(name, args=[stay.uid])))) == there, (name, days)
