"""Finished stays brought in many at once: the same facts as by the verbs of the bedside, and the same refusals."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
import time_machine

from teaching.models import Account, Stay, StayNow
from teaching.record.accounts import content_of, sha256_of
from teaching.record.charts import chart_for
from teaching.record.entries import KitEntry, StayEntry, StomaEntry
from teaching.record.figures import worked_out
from teaching.record.paired import paired_ratings
from teaching.record.past_stays import PastSession, PastStay, record_past_stays
from teaching.record.refusals import Refused
from tests.bedside.ward import EMPTYING, NIGHT, build_ward

DAY = timedelta(days=1)


@pytest.fixture
def ward(db):
    with time_machine.travel(NIGHT, tick=False):
        yield build_ward()


def past(ward, number=0, **changed):
    opened = NIGHT - 20 * DAY
    entry = StayEntry(
        unit=ward.unit, authority="made up", mrn=f"past-{number}", family_name="Invented", given_names=f"P{number}",
        born=date(1950, 1, 1), bed="old", surgery_at=opened + DAY, opened_at=opened,
    )  # fmt: skip
    amber, basil = ward.staff["amber"].clinician, ward.staff["basil"].clinician
    answers = tuple((code, "06") for code in EMPTYING)
    sessions = (
        PastSession("emptying", opened + 3 * DAY, amber, answers),
        PastSession("emptying", opened + 4 * DAY, amber, answers, basil, (("em-open", "05"), ("em-close", "06"))),
    )
    told = {"entry": entry, "stoma": StomaEntry(kind="ileostomy", formed_at=opened + DAY),
            "kit": KitEntry(interval_hours=72), "left_at": opened + 6 * DAY, "sessions": sessions}
    return PastStay(**told | changed)


def bring_in(ward, *stays):
    return record_past_stays(actor=ward.staff["linden"], unit=ward.unit, stays=stays)


def test_facts_stand_as_if_written_at_the_bedside(ward):
    (stay,) = bring_in(ward, past(ward))
    chart = chart_for(stay)
    assert chart.state == "left"
    assert len(chart.ratings) == 2 * len(EMPTYING) + 2
    assert {rating.witness.name for rating in chart.ratings} == {"Amber Oakley", "Basil Thorne"}
    assert len({rating.event for rating in chart.ratings}) == 2
    assert set(Account.objects.values_list("by", "proof")) == {(ward.staff["linden"].clinician.pk, "no sign-in")}


def test_what_was_stated_is_bound_by_its_hash(ward):
    bring_in(ward, past(ward))
    for account in Account.objects.all():
        assert sha256_of(content_of(account)) == account.content_sha256


def test_two_nurses_of_one_event_are_a_pair(ward):
    bring_in(ward, past(ward))
    (pairs,) = paired_ratings(ward.unit).values()
    assert pairs == [("em-close", "06", "06"), ("em-open", "06", "05")]


def test_the_derived_row_is_what_the_record_gives(ward):
    (stay,) = bring_in(ward, past(ward))
    kept = StayNow.objects.get(stay=stay)
    for name, value in worked_out(stay, NIGHT).items():
        assert getattr(kept, name) == value, name


def test_queries_do_not_grow_with_stays(ward, django_assert_max_num_queries):
    """Two trail queries a stay; everything else is told many at once."""
    with django_assert_max_num_queries(60 + 2 * 20):
        bring_in(ward, *(past(ward, number) for number in range(20)))


@pytest.mark.parametrize(("changed", "field", "words"), [
    ({"left_at": NIGHT + DAY}, "1.left_at", "still to come"),
    ({"left_at": NIGHT - 17.5 * DAY}, "1.left_at", "There is a session after this"),
    ({"kit": KitEntry(closure="closed")}, "1.outlet", "closed pouch has no outlet"),
    ({"stoma": StomaEntry(kind="ileostmy")}, "1.kind", "did you mean ileostomy?"),
])
def test_one_fault_and_none_is_stored(ward, changed, field, words):
    with pytest.raises(Refused) as found:
        bring_in(ward, past(ward), past(ward, 1, **changed))
    assert words in {fault.field: fault.sentence for fault in found.value.faults}[field]
    assert not Stay.objects.exists()


def test_a_row_that_does_not_apply(ward):
    amber = ward.staff["amber"].clinician
    session = PastSession("emptying", NIGHT - 17 * DAY, amber, (("ue-open", "06"),))
    with pytest.raises(Refused) as found:
        bring_in(ward, past(ward, sessions=(session,)))
    assert [fault.field for fault in found.value.faults] == ["0.ratings.ue-open"]
    assert not Stay.objects.exists()


def test_somebody_known_here_is_not_made_twice(ward):
    bring_in(ward, past(ward))
    with pytest.raises(Refused, match="is here already"):
        bring_in(ward, past(ward))
    twice = past(ward, 5)
    with pytest.raises(Refused, match="one stay of a person at a time"):
        bring_in(ward, twice, replace(twice, left_at=NIGHT))
