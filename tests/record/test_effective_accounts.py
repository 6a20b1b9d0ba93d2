"""Which account of an event counts, which sign-off it leaned on, and that nothing else changes the past.

Corrections, addenda and retractions have no verb yet; the rows are written as a later verb will write them.
"""

from datetime import timedelta

import pytest
import time_machine

from teaching.models import Account, Rating
from teaching.record.charts import chart_for, sheet_for
from teaching.record.staff import accept_certificate, withdraw_sign_off
from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT
from tests.bedside.ward import NIGHT, build_ward

DAY = timedelta(days=1)


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


def followed_by(account, kind, answer="", hours_later=1, rater=None):
    """A newer account of the same event: all rows at one answer, none where it has no ratings."""
    columns = {
        field.attname: getattr(account, field.attname)
        for field in Account._meta.concrete_fields
        if field.attname not in ("id", "uid", "number", "kind", "replaces_id")
    }
    columns |= {"recorded_at": NIGHT + timedelta(hours=hours_later), "number": account.number + 1}
    if rater:
        columns |= {"rater_id": rater.pk, "by_id": rater.pk, "number": 1, "role": "paired"}
    made = Account.objects.create(kind=kind, replaces=account, **columns)
    for row in account.ratings.all() if answer else ():
        Rating.objects.create(
            stay_id=row.stay_id, by=made.rater, recorded_at=made.recorded_at, account=made, learner=row.learner,
            code=row.code, row=row.row, answer=answer,
        )
    return made


def answers(stay, as_known_at=None):
    return sorted({rating.answer for rating in chart_for(stay, as_known_at).ratings})


def test_the_highest_number_counts_and_the_earlier_one_is_replayed(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    second = followed_by(first, "correction", "04", hours_later=1)
    followed_by(second, "correction", "03", hours_later=2)
    assert answers(ada) == ["03"]
    assert answers(ada, NIGHT + timedelta(minutes=90)) == ["04"]
    assert answers(ada, NIGHT + timedelta(minutes=30)) == ["06"]


def test_an_addendum_adds_words_and_replaces_nothing(ward, ada, stoma):
    followed_by(ward.teach(ada, stoma, 6), "addendum")
    assert answers(ada) == ["06"]


def test_an_addendum_to_a_correction_leaves_the_correction(ward, ada, stoma):
    corrected = followed_by(ward.teach(ada, stoma, 6), "correction", "04")
    followed_by(corrected, "addendum", hours_later=2)
    assert answers(ada) == ["04"]


def test_what_is_retracted_is_no_fact_any_more(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    followed_by(first, "retraction")
    assert answers(ada) == []
    assert answers(ada, NIGHT + timedelta(minutes=30)) == ["06"]


def test_two_raters_of_one_event_are_each_heard_and_make_one_occasion(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    followed_by(first, "original", "06", rater=ward.staff["basil"].clinician)
    chart = chart_for(ada)
    assert {rating.witness.name for rating in chart.ratings} == {"Amber Oakley", "Basil Thorne"}
    assert len({rating.event for rating in chart.ratings}) == 1
    states = {one.code: one.state for one in assess(chart, DEFAULT, NIGHT).standings}
    assert states["em-open"] == "shown once"


def test_the_facts_are_the_same_in_whatever_order_they_were_entered(ward, ada, stoma):
    bo = ward.stay("Bo", "Fen", "A2")
    other = ward.stoma(bo)
    told = [(30, "03", "amber"), (20, "06", "basil"), (6, "06", "amber")]
    for hours, level, by in told:
        ward.teach(ada, stoma, hours, level, by=by)
    for hours, level, by in reversed(told):
        ward.teach(bo, other, hours, level, by=by)

    def facts(stay):
        return sorted((one.at, one.code, one.answer, one.witness.name) for one in chart_for(stay).ratings)

    def states(stay):
        return {one.code: (one.state, one.reasons) for one in assess(chart_for(stay), DEFAULT, NIGHT).standings}

    assert facts(ada) == facts(bo)
    assert states(ada) == states(bo)


def signed_off(ward, skill, starts, ends, nurse="amber"):
    return accept_certificate(
        actor=ward.staff["linden"], nurse=ward.staff[nurse].clinician, skill=skill, unit=ward.unit,
        certificate="A course, made up", valid_from=NIGHT + starts, valid_until=NIGHT + ends,
    )


def leaned_on(ward, stay, stoma, hours, **more):
    return ward.teach(stay, stoma, hours, **more).sign_off


def test_an_account_leans_on_the_sign_off_valid_when_it_happened(ward, ada, stoma):
    old = signed_off(ward, "teach-bowel", -300 * DAY, -DAY)
    new = signed_off(ward, "teach-bowel", -timedelta(hours=1), 300 * DAY)
    assert leaned_on(ward, ada, stoma, 24) == old
    assert leaned_on(ward, ada, stoma, 3) == old  # 23:14 of its last day, which counts whole
    assert leaned_on(ward, ada, stoma, 2) is None
    assert leaned_on(ward, ada, stoma, 1) == new
    assert leaned_on(ward, ada, stoma, 6, by="basil") is None


def test_a_sign_off_for_the_other_kind_of_stoma_is_not_leaned_on(ward, ada, stoma):
    signed_off(ward, "teach-urostomy", -DAY, 300 * DAY)
    assert leaned_on(ward, ada, stoma, 6) is None


def test_a_sign_off_taken_back_later_does_not_rewrite_what_leaned_on_it(ward, ada, stoma):
    granted = signed_off(ward, "teach-bowel", -DAY, 300 * DAY)
    assert leaned_on(ward, ada, stoma, 6) == granted
    amber = ward.staff["amber"].clinician
    withdraw_sign_off(actor=ward.staff["linden"], nurse=amber, skill="teach-bowel", reason="Moved on, made up.")
    assert [rating.witness.signed_off for rating in chart_for(ada).ratings] == [True] * 5
    with time_machine.travel(NIGHT + timedelta(hours=2), tick=False):
        ward.now = NIGHT + timedelta(hours=2)
        assert leaned_on(ward, ada, stoma, 1) is None
        assert leaned_on(ward, ada, stoma, 4) == granted  # written late, of a moment when it was valid


def test_a_move_changes_the_place_and_not_whether_teaching_goes_on(ward, ada, stoma):
    from teaching.record.stays import note_stay_event

    def note(kind, **more):
        note_stay_event(actor=ward.staff["amber"], stay=ada, kind=kind, **more)
        return sheet_for(ada)

    assert note("moved", unit=ward.other, bed="W1").chart.state == "opened"
    assert note("paused").chart.state == "paused"
    assert note("moved", bed="W2").chart.state == "paused"
    sheet = note("left")
    assert (sheet.chart.state, sheet.unit_id) == ("left", ward.other.pk)
    assert sheet.state_at(NIGHT - DAY) == "opened"
