"""The straight line through the record: a session signed, read back as facts, kept for the board, replayed."""

from datetime import date, timedelta
from io import StringIO
from uuid import uuid4

import pytest
import time_machine
from django.core.management import CommandError, call_command

from teaching.models import Account, Event, Rating, StayNow, TrailLine
from teaching.record.accounts import content_of, sha256_of
from teaching.record.charts import chart_for, charts_for
from teaching.record.entries import CareEntry, FindingEntry, RatingEntry, RecheckEntry, SessionEntry, StayEntry
from teaching.record.figures import board
from teaching.record.places import policy_for, set_policy
from teaching.record.refusals import Refused
from teaching.record.sessions import cosign, record_care, record_recheck, record_session, record_sessions
from teaching.record.stays import note_stay_event, open_stay
from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT
from tests.bedside.ward import EMPTYING, HOUSE, NIGHT, build_ward

TABLES = (Event, Account, Rating, TrailLine)


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


def entry(stay, stoma, hours_ago=1, codes=EMPTYING, answer="06", **more):
    ratings = tuple(RatingEntry(learner=stay.learners.get(kind="person"), code=code, answer=answer) for code in codes)
    said = {"procedure": "emptying", "began_at": NIGHT - timedelta(hours=hours_ago), "ratings": ratings} | more
    return SessionEntry(stay=stay, stoma=stoma, **said)


def state(stay, code, now=NIGHT):
    found = assess(chart_for(stay), DEFAULT, now)
    return next(one.state for one in found.standings if one.code == code)


def test_two_emptyings_signed_are_independence_read_back(ward, ada, stoma):
    ward.teach(ada, stoma, 30)
    assert state(ada, "em-open") == "shown once"
    ward.teach(ada, stoma, 6)
    assert state(ada, "em-open") == "independent"


def test_the_order_of_entry_does_not_matter(ward, ada, stoma):
    ward.teach(ada, stoma, 6)
    ward.teach(ada, stoma, 30, levels="03")
    late = state(ada, "em-open")
    assert late == "shown once"


def test_what_was_signed_can_be_worked_out_again_from_the_rows(ward, ada, stoma):
    account = ward.teach(ada, stoma, 6)
    again = Account.objects.get(pk=account.pk)
    assert sha256_of(content_of(again)) == account.content_sha256
    assert again.meaning == "I taught this and saw what is written here."
    assert (again.zone, again.began_offset) == ("Europe/London", 60)


def test_the_kept_row_is_what_the_record_says_after_every_kind_of_entry(ward, ada, stoma):
    """The chart with the new facts added is the chart read anew: else these two would differ."""
    finding = FindingEntry(colour="pink-red", width_mm=32, skin={"feet": "good"})
    record_session(actor=ward.staff["amber"], entry=entry(ada, stoma, 30, finding=finding, place="bathroom"))
    record_care(
        actor=ward.staff["basil"],
        entry=CareEntry(
            stay=ada, stoma=stoma, procedure="change", at=NIGHT - timedelta(hours=9),
            finding=FindingEntry(wear_end="leak"),
        ),
    )
    record_session(actor=ward.staff["basil"], entry=entry(ada, stoma, 5))
    person = ada.learners.get(kind="person")
    tapped = RecheckEntry(stay=ada, stoma=stoma, procedure="emptying", learner=person, at=NIGHT - timedelta(hours=1))
    record_recheck(actor=ward.staff["amber"], entry=tapped)
    out = StringIO()
    call_command("rebuild_figures", "--check", stdout=out)
    assert "1 stays, 0 that differed" in out.getvalue()


def test_a_kept_row_that_was_tampered_with_is_named_and_made_anew(ward, ada, stoma):
    ward.teach(ada, stoma, 6)
    StayNow.objects.update(bed="Z9")
    with pytest.raises(CommandError):
        call_command("rebuild_figures", "--check", stdout=StringIO())
    call_command("rebuild_figures", stdout=StringIO())
    assert StayNow.objects.get().bed == "A1"
    call_command("rebuild_figures", "--check", stdout=StringIO())


def test_the_board_reads_the_kept_row_until_its_time_is_up(ward, ada, stoma):
    ward.teach(ada, stoma, 30)
    ward.teach(ada, stoma, 6)
    (row,) = board(ward.unit, NIGHT)
    assert row.standing == "Emptying: alone."
    later = NIGHT + timedelta(hours=43)
    (row,) = board(ward.unit, later)
    assert row.standing.startswith("Emptying: show again")
    assert StayNow.objects.get().assessed["standing"] == "Emptying: alone."


def test_a_new_policy_is_seen_on_the_board_at_once(ward, ada, stoma):
    ward.teach(ada, stoma, 30)
    ward.teach(ada, stoma, 6)
    ward.teach(ada, stoma, 4)
    lead = ward.staff["linden"]
    set_policy(actor=lead, unit=ward.unit, overrides={"emptying_date": "12 hours"}, why="A trial, made up.")
    assert policy_for(ward.unit, NIGHT).version != DEFAULT.version
    (row,) = board(ward.unit, NIGHT + timedelta(hours=9))
    assert row.standing.startswith("Emptying: show again")


def test_the_past_is_replayed_as_it_was_known(ward, ada, stoma):
    ward.teach(ada, stoma, 6)
    with time_machine.travel(NIGHT + timedelta(hours=20), tick=False):
        ward.teach(ada, stoma, 25)  # written 45 hours late
    known = chart_for(ada, as_known_at=NIGHT + timedelta(hours=19))
    assert (len(known.ratings), len(chart_for(ada).ratings)) == (5, 10)
    with pytest.raises(LookupError):
        chart_for(ada, as_known_at=NIGHT - timedelta(days=3650))


def test_the_language_to_teach_in_is_a_fact_of_the_chart_as_it_was_known(ward):
    """A person comes back and is taught in another language: the newest word holds, the earlier one is replayed."""
    told = {"unit": ward.unit, "authority": "made up", "mrn": "000-Z9", "family_name": "Yarrow", "given_names": "Sam",
            "born": date(1981, 1, 9), "bed": "Z9"}
    stay = open_stay(actor=ward.staff["amber"], entry=StayEntry(**told, language="pl"))
    assert chart_for(stay).language == "pl"
    with time_machine.travel(NIGHT + timedelta(hours=2), tick=False):
        note_stay_event(actor=ward.staff["amber"], stay=stay, kind="cancelled")
        again = open_stay(actor=ward.staff["amber"], entry=StayEntry(**told, language="en"))
    assert chart_for(again).language == "en"
    assert chart_for(stay, as_known_at=NIGHT + timedelta(hours=1)).language == "pl"


def test_a_chart_costs_eleven_queries_at_one_and_at_many(ward, ada, stoma, assert_selects):
    with assert_selects(11):
        chart_for(ada)
    for hours in range(2, 8):
        ward.teach(ada, stoma, hours)
    other = ward.stay("Bo", "Fen", "A2")
    ward.stoma(other)
    with assert_selects(11):
        charts_for([ada, other])


def test_the_board_costs_the_same_at_one_and_at_three(ward, ada, stoma, assert_selects):
    with assert_selects(4):
        board(ward.unit, NIGHT)
    for number in (2, 3):
        ward.stoma(ward.stay("Bo", "Fen", f"A{number}"))
    with assert_selects(4):
        assert len(board(ward.unit, NIGHT)) == 3


def test_a_students_entry_confirms_once_a_registered_nurse_has_signed_beside_it(ward, ada, stoma):
    first, second = (ward.teach(ada, stoma, hours, by="tansy") for hours in (30, 6))
    assert state(ada, "em-open") == "shown, not yet confirmed"
    cosign(actor=ward.staff["amber"], account=first)
    assert state(ada, "em-open") == "independent"
    for refused in ("tansy", "ashby"):
        with pytest.raises(Refused):
            cosign(actor=ward.staff[refused], account=second)


def bad(ward, ada, stoma):
    """(what is wrong, entry, field, words of the sentence)"""
    helper = ward.helper(ada, agreed=False)
    elsewhere = ward.stoma(ward.stay("Bo", "Fen", "A2"))
    unsaid = RatingEntry(learner=helper, code="em-open", answer="06")
    return {
        "an unknown level": (entry(ada, stoma, answer="11"), "ratings.em-when", "11"),
        "a level for a topic": (entry(ada, stoma, codes=("t-call",)), "ratings.t-call", "no answer for a topic"),
        "a row of another checklist": (entry(ada, stoma, codes=("xx-none",)), "ratings.xx-none", "not a row"),
        "a row that does not apply": (entry(ada, stoma, codes=("cl-off",)), "ratings.cl-off", "belongs to"),
        "a kit not there": (entry(ada, stoma, procedure="night", codes=("nd-join",)), "procedure", "does not wear"),
        "a future time": (entry(ada, stoma, hours_ago=-1), "began_at", "still to come"),
        "end before start": (entry(ada, stoma, ended_at=NIGHT - timedelta(hours=2)), "ended_at", "before"),
        "two stomas mixed up": (entry(ada, elsewhere), "stoma", ""),
        "a helper who has not said yes": (entry(ada, stoma, ratings=(unsaid,)), "learner", "not said yes"),
        "nothing rated": (entry(ada, stoma, ratings=()), "ratings", ""),
    }


@pytest.mark.parametrize("name", [
    "an unknown level", "a level for a topic", "a row of another checklist", "a row that does not apply",
    "a kit not there", "a future time", "end before start", "two stomas mixed up", "a helper who has not said yes",
    "nothing rated",
])  # fmt: skip
def test_bad_input_is_refused_with_its_field_and_stores_nothing(ward, ada, stoma, name):
    wrong, field, sentence = bad(ward, ada, stoma)[name]
    before = [table.objects.count() for table in TABLES]
    with pytest.raises(Refused) as refused:
        record_session(actor=ward.staff["amber"], entry=wrong)
    assert any(fault.field == field and sentence in fault.sentence for fault in refused.value.faults), (
        [(fault.field, fault.sentence) for fault in refused.value.faults]
    )  # fmt: skip
    assert [table.objects.count() for table in TABLES] == before


def test_many_sessions_are_stored_all_or_none(ward, ada, stoma):
    good, wrong = entry(ada, stoma, 8), entry(ada, stoma, -1, event_uid=uuid4())
    with pytest.raises(Refused) as refused:
        record_sessions(actor=ward.staff["amber"], entries=[good, wrong])
    assert refused.value.faults[0].field == "1.began_at"
    assert Account.objects.count() == 0
    assert len(record_sessions(actor=ward.staff["amber"], entries=[good, entry(ada, stoma, 2)])) == 2


def test_only_the_command_line_acts_without_a_clinician_and_it_signs_nothing(ward, ada, stoma):
    with pytest.raises(Refused):
        record_session(actor=HOUSE, entry=entry(ada, stoma))
