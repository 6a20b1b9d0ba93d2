"""Two nurses and one event: rated beside, or a lesson begun by one and gone on with by another."""

from datetime import timedelta
from uuid import uuid4

import pytest
import time_machine

from teaching.models import Account, Draft, Event, TakeOver
from teaching.record.beside import rate_beside, record_part
from teaching.record.charts import chart_for
from teaching.record.corrections import retract_account
from teaching.record.drafts import TapConflict, begin_draft, newest_taps, take_over_draft, tap
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.record.refusals import Refused
from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT
from tests.bedside.ward import EMPTYING, NIGHT, build_ward


@pytest.fixture(autouse=True)
def at_night():
    with time_machine.travel(NIGHT, tick=False):
        yield


@pytest.fixture
def ward(db, at_night):
    return build_ward()


@pytest.fixture
def ada(ward):
    return ward.stay()


@pytest.fixture
def stoma(ward, ada):
    return ward.stoma(ada)


def saw(stay, stoma, level="06", codes=EMPTYING, hours_ago=6, **more):
    person = stay.learners.get(kind="person")
    rated = tuple(RatingEntry(learner=person, code=code, answer=level) for code in codes)
    said = {"procedure": "emptying", "began_at": NIGHT - timedelta(hours=hours_ago), "ratings": rated}
    return SessionEntry(stay=stay, stoma=stoma, **said | more)


def beside(ward, first, by="basil", **more):
    event = first.event
    return rate_beside(actor=ward.staff[by], event=event, entry=saw(event.stay, event.stoma, **more))


def states(stay):
    return {one.code: one.state for one in assess(chart_for(stay), DEFAULT, NIGHT).standings}


def test_a_second_nurse_rates_the_same_event_and_it_stays_one_occasion(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    made = beside(ward, first)
    assert (made.event, made.number, made.kind, made.role) == (first.event, 1, "original", "paired")
    assert Event.objects.count() == 1
    assert states(ada)["em-open"] == "shown once"


def test_where_the_two_differ_the_lower_counts(ward, ada, stoma):
    beside(ward, ward.teach(ada, stoma, 6), level="04")
    assert states(ada)["em-open"] == "learning"


def test_a_rating_beside_a_corrected_entry_is_unharmed(ward, ada, stoma):
    from tests.record.test_corrections import correct, replace

    first = ward.teach(ada, stoma, 6)
    beside(ward, first)
    ward.staff["amber"] = replace(ward.staff["amber"], proof="made up")
    correct(ward, first)
    assert sorted({(one.witness.name, one.answer) for one in chart_for(ada).ratings}) == [
        ("Amber Oakley", "04"), ("Basil Thorne", "06"),
    ]  # fmt: skip


def test_nobody_rates_the_same_event_twice(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    beside(ward, first)
    for by in ("amber", "basil"):
        with pytest.raises(Refused, match="already signed what you saw"):
            beside(ward, first, by=by)


@pytest.mark.parametrize("by", ["tansy", "ashby"])
def test_only_a_registered_nurse_rates_beside(ward, ada, stoma, by):
    first = ward.teach(ada, stoma, 6)
    with pytest.raises(Refused, match="Only a registered nurse rates beside"):
        beside(ward, first, by=by)


def test_what_was_entered_in_error_is_not_rated_beside(ward, ada, stoma):
    from tests.record.test_corrections import replace

    first = ward.teach(ada, stoma, 6)
    retract_account(actor=replace(ward.staff["amber"], proof="made up"), account=first, reason="Bo's.")
    with pytest.raises(Refused, match="nothing to rate beside"):
        beside(ward, first)


def test_another_stoma_is_not_the_same_event(ward, ada, stoma):
    first, other = ward.teach(ada, stoma, 6), ward.stoma(ada, "colostomy", "left")
    with pytest.raises(Refused, match="another stoma or procedure"):
        rate_beside(actor=ward.staff["basil"], event=first.event, entry=saw(ada, other))


# a lesson that changes hands


@pytest.fixture
def begun(ward, ada, stoma):
    """Amber began and tapped two rows; Basil took over and tapped one."""
    draft = begin_draft(actor=ward.staff["amber"], stay=ada, stoma=stoma, procedure="emptying")
    tapped(ward, draft, "amber", "ratings.em-when", "06")
    tapped(ward, draft, "amber", "ratings.em-open", "04")
    take_over_draft(actor=ward.staff["basil"], draft=draft)
    tapped(ward, draft, "basil", "ratings.em-close", "06")
    draft.refresh_from_db()
    return draft


def tapped(ward, draft, by, field, value, base=None):
    return tap(actor=ward.staff[by], draft=draft, client_id=uuid4(), field=field, value=value, base=base)


def part(ward, draft, by, codes, level="06", **more):
    entry = saw(draft.stay, draft.stoma, level, codes, hours_ago=1, **more)
    return record_part(actor=ward.staff[by], draft=draft, entry=entry)


def test_taking_over_is_written_down_and_the_lesson_has_a_new_owner(ward, begun):
    amber, basil = (ward.staff[name].clinician for name in ("amber", "basil"))
    row = TakeOver.objects.get()
    assert (row.draft, row.left_by, row.taken_by, begun.owner) == (begun, amber, basil, basil)


def test_what_the_first_tapped_is_not_among_what_the_second_signs(ward, begun):
    amber, basil = (ward.staff[name].clinician for name in ("amber", "basil"))
    assert sorted(newest_taps(begun, basil)) == ["ratings.em-close"]
    assert sorted(newest_taps(begun, amber)) == ["ratings.em-open", "ratings.em-when"]


def test_the_second_taps_again_what_they_saw_themselves_without_a_conflict(ward, begun):
    assert tapped(ward, begun, "basil", "ratings.em-open", "06").value == "06"


@pytest.mark.parametrize("order", [("amber", "basil"), ("basil", "amber")])
def test_each_signs_only_what_they_saw_and_it_is_one_event(ward, ada, begun, order):
    codes = {"amber": ("em-when", "em-open"), "basil": ("em-wipe", "em-close", "em-hands")}
    made = [part(ward, begun, by, codes[by]) for by in order]
    assert {account.event.uid for account in made} == {begun.event_uid}
    assert Event.objects.count() == 1
    said = {(rating.code, rating.witness.name) for rating in chart_for(ada).ratings}
    assert said == {(code, "Amber Oakley") for code in codes["amber"]} | {
        (code, "Basil Thorne") for code in codes["basil"]
    }
    assert set(states(ada).values()) >= {"shown once"}


def test_the_lesson_stays_open_until_whoever_has_it_signs(ward, begun):
    part(ward, begun, "amber", ("em-when",))
    assert Draft.objects.get().state == "open"
    part(ward, begun, "basil", ("em-close",))
    assert Draft.objects.get().state == "signed"


def test_nobody_signs_their_part_twice(ward, begun):
    part(ward, begun, "amber", ("em-when",))
    with pytest.raises(Refused, match="already signed what you saw"):
        part(ward, begun, "amber", ("em-open",))


def test_who_never_had_the_lesson_signs_no_part(ward, begun):
    with pytest.raises(Refused, match="Each signs only what they saw"):
        part(ward, begun, "tansy", ("em-when",), role="student")
    assert Account.objects.count() == 0


def test_who_left_a_lesson_cannot_tap_in_it_and_sees_both_values(ward, begun):
    with pytest.raises(TapConflict, match="Basil Thorne has taken this session over") as conflict:
        tapped(ward, begun, "amber", "ratings.em-close", "04")
    assert conflict.value.there.value == "06"


def test_a_lesson_comes_back_to_who_began_it_with_their_own_taps(ward, begun):
    take_over_draft(actor=ward.staff["amber"], draft=begun)
    begun.refresh_from_db()
    assert sorted(newest_taps(begun, begun.owner)) == ["ratings.em-open", "ratings.em-when"]


def test_taking_over_needs_an_open_lesson_of_somebody_else(ward, ada, stoma, begun):
    with pytest.raises(Refused, match="yours already"):
        take_over_draft(actor=ward.staff["basil"], draft=begun)
    part(ward, begun, "basil", ("em-close",))
    with pytest.raises(Refused, match="already signed or dropped"):
        take_over_draft(actor=ward.staff["amber"], draft=begun)
    change = begin_draft(actor=ward.staff["amber"], stay=ada, stoma=stoma, procedure="change")
    with pytest.raises(Refused, match="for a nurse to go on with"):
        take_over_draft(actor=ward.staff["ashby"], draft=change)
