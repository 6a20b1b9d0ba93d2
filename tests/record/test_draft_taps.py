"""Taps of a session in hand: kept once, never over one another, and in one instant only one is kept."""

from functools import partial
from uuid import uuid4

import pytest
import time_machine

from teaching.models import Account, DraftTap, TakeOver
from teaching.record.drafts import TapConflict, begin_draft, drop_draft, take_over_draft, tap
from teaching.record.refusals import Refused
from tests.bedside.ward import NIGHT, build_ward
from tests.record.conftest import file_database  # noqa: F401
from tests.record.test_corrections import replace, told
from tests.record.test_races import AGAIN, at_once


@pytest.fixture(autouse=True)
def at_night():
    with time_machine.travel(NIGHT, tick=False):
        yield


def begin(ward):
    stay = ward.stay()
    return begin_draft(actor=ward.staff["amber"], stay=stay, stoma=ward.stoma(stay), procedure="emptying")


@pytest.fixture
def ward(db, at_night):
    return build_ward()


@pytest.fixture
def draft(ward):
    return begin(ward)


@pytest.fixture
def say(ward, draft):
    def of(field, value, base=None, client_id=None):
        uid = client_id or uuid4()
        return tap(actor=ward.staff["amber"], draft=draft, client_id=uid, field=field, value=value, base=base)

    return of


def test_a_tap_on_top_of_the_newest_is_kept(say):
    first = say("ratings.em-close", "04")
    assert say("ratings.em-close", "03", base=first.client_id).value == "03"


@pytest.mark.parametrize("late", [{}, {"base": "first"}])
def test_a_tap_on_top_of_an_older_one_is_a_conflict_with_both_values(say, late):
    first = say("ratings.em-close", "04")
    second = say("ratings.em-close", "03", base=first.client_id)
    with pytest.raises(TapConflict) as conflict:
        say("ratings.em-close", "05", base=first.client_id if late else None)
    assert conflict.value.there == second
    assert list(DraftTap.objects.order_by("pk").values_list("value", flat=True)) == ["04", "03"]


def test_other_fields_merge(say):
    say("ratings.em-close", "04")
    say("ratings.em-open", "06")
    assert DraftTap.objects.count() == 2


def test_the_same_tap_again_is_the_same_tap_even_after_another(say):
    mine = uuid4()
    first = say("ratings.em-close", "04", client_id=mine)
    say("ratings.em-close", "03", base=mine)
    assert say("ratings.em-close", "04", client_id=mine) == first
    assert DraftTap.objects.count() == 2


def test_a_dropped_session_takes_no_tap(ward, draft, say):
    drop_draft(actor=ward.staff["amber"], draft=draft)
    with pytest.raises(Refused, match="already signed or dropped"):
        say("alone", True)


def test_two_taps_in_one_instant_on_one_field_keep_one(file_database):  # noqa: F811
    ward = build_ward()
    draft = begin(ward)
    for number in range(AGAIN):
        acts = [
            partial(
                tap, actor=ward.staff["amber"], draft=draft, client_id=uuid4(), field=f"ratings.{number}", value=value
            )
            for value in ("04", "06")
        ]
        found = at_once(*acts)
        assert sorted(type(one).__name__ for one in found) == ["DraftTap", "TapConflict"], found
        kept = next(one for one in found if isinstance(one, DraftTap))
        lost = next(one for one in found if isinstance(one, TapConflict))
        assert lost.there == kept
    assert DraftTap.objects.count() == AGAIN


def test_a_lesson_taken_over_by_two_at_once_has_one_owner_after_another(file_database):  # noqa: F811
    """Both may take it, one after the other: each taking names who had it, so no taking is lost."""
    ward = build_ward()
    draft = begin(ward)
    found = at_once(*(partial(take_over_draft, actor=ward.staff[by], draft=draft) for by in ("basil", "tansy")))
    assert [type(one).__name__ for one in found] == ["Draft", "Draft"], found
    first, second = TakeOver.objects.order_by("pk")
    assert (first.left_by, second.left_by) == (ward.staff["amber"].clinician, first.taken_by)
    draft.refresh_from_db()
    assert draft.owner == second.taken_by


def test_two_corrections_of_one_entry_at_once_leave_one(file_database):  # noqa: F811
    from teaching.record.corrections import correct_account

    ward = build_ward()
    stay = ward.stay()
    account, amber = ward.teach(stay, ward.stoma(stay), 6), replace(ward.staff["amber"], proof="made up")
    for number in range(AGAIN):
        level = ("04", "03")[number % 2]
        fix = partial(correct_account, actor=amber, account=account, entry=told(account, level), reason="Made up.")
        found = at_once(fix, fix)
        assert sorted(type(one).__name__ for one in found) == ["Account", "Superseded"], found
        account = next(one for one in found if isinstance(one, Account))
    assert sorted(Account.objects.values_list("number", flat=True)) == list(range(1, AGAIN + 2))
