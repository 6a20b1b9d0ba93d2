"""What may settle a caution is offered once it is on record, and only after telling; looking again may be overdue."""

from datetime import timedelta

import pytest
from django.urls import reverse

from teaching.models import CautionStep
from teaching.record.cautions import raise_caution, settle_caution, tell_caution
from teaching.record.entries import CareEntry, FindingEntry
from teaching.record.places import set_policy
from teaching.record.refusals import Refused
from teaching.record.sessions import record_care, record_output_total
from tests.bedside.reading import words
from tests.bedside.ward import HOUSE


@pytest.fixture
def raised(ward, ada, stoma):
    """raised("gap", 5) gives a caution raised so many hours ago."""

    def of(sign, hours):
        at = ward.now - timedelta(hours=hours)
        return raise_caution(actor=ward.staff["amber"], stay=ada, sign=sign, at=at, stoma=stoma)

    return of


@pytest.fixture
def told(ward, raised):
    """The same, and told an hour later."""

    def of(sign, hours, **more):
        caution, at = raised(sign, hours), ward.now - timedelta(hours=hours - 1)
        tell_caution(actor=ward.staff["amber"], caution=caution, whom="Dr Nettle", at=at, **more)
        return caution

    return of


@pytest.fixture
def looked(ward, ada, stoma):
    def at(hours, **seen):
        when = ward.now - timedelta(hours=hours)
        finding = FindingEntry(**seen)
        entry = CareEntry(stay=ada, stoma=stoma, procedure="change", at=when, finding=finding)
        record_care(actor=ward.staff["amber"], entry=entry)

    return at


def page(amber, ada):
    return words(amber.get(reverse("person", args=[ada.uid])))


def test_a_later_normal_finding_is_offered(ada, told, looked, amber, send):
    caution = told("dark-stoma", 5)
    assert "It is settled" in page(amber, ada)
    looked(2, colour="pink-red")
    assert "Normal today 00:14: settle it" in page(amber, ada)
    form = amber.get(reverse("caution-settled", args=[caution.uid]))
    assert "Seen normal today 00:14. Settle it if you judge so." in words(form)
    assert form.context["form"]["how"].value() == "normal"
    send("caution-settled", caution, how="normal", answer="Seen normal today 00:14.")
    assert CautionStep.objects.last().kind == "settled"


@pytest.mark.parametrize(
    ("hours", "seen"),
    [
        (4.5, {"colour": "pink-red"}),  # before it was told
        (2, {"wet": "wet"}),  # something else was looked at
        (2, {"colour": "dusky"}),
    ],
)
def test_nothing_else_is_offered_as_normal(ada, told, looked, amber, hours, seen):
    told("dark-stoma", 5)
    looked(hours, **seen)
    assert "settle it" not in page(amber, ada)


def test_one_that_was_worse_again_is_not_offered(ada, told, looked, amber):
    told("gap", 5)
    looked(3, edge="joined")
    looked(1, edge="gap")
    assert "settle it" not in page(amber, ada)


def test_sore_skin_is_normal_only_where_all_of_it_was_seen(ada, told, looked, amber):
    told("sore-skin", 9)
    looked(3, skin={"feet": "good"})
    assert "settle it" not in page(amber, ada)
    looked(2, skin=dict.fromkeys(("head", "own-left", "feet", "own-right"), "good"))
    assert "settle it" in page(amber, ada)


def test_a_lower_total_is_offered_for_a_high_output(ward, ada, stoma, told, amber):
    told("output-today", 9)
    record_output_total(actor=ward.staff["amber"], stoma=stoma, until_at=ward.now - timedelta(hours=1), ml=1499)
    assert "Normal today 01:14: settle it" in page(amber, ada)


def test_telling_about_a_high_output_asks_for_a_fluid_plan(raised, amber):
    caution = raised("output-today", 3)
    assert "Ask for a fluid plan" in words(amber.get(reverse("caution-told", args=[caution.uid])))


def test_looking_again_is_said_and_then_overdue(ward, ada, told, amber):
    told("gap", 9, look_again_at=ward.now + timedelta(hours=1))
    assert "look again today 03:14, not settled" in page(amber, ada)
    told("sunk", 9, look_again_at=ward.now - timedelta(hours=1))
    assert "look again was due today 01:14, overdue, not settled" in page(amber, ada)


def test_never_settled_before_it_was_told(ward, raised):
    with pytest.raises(Refused, match="Settle a caution only after it was told"):
        settle_caution(actor=ward.staff["amber"], caution=raised("gap", 3), at=ward.now, whom="Dr Nettle")


def test_a_hospital_may_put_a_sign_on_another_list_or_switch_it_off(ward, raised):
    before = raised("gap", 3)
    set_policy(actor=HOUSE, unit=ward.unit, overrides={"sign:gap": "call_now", "sign:sunk": "off"}, why="our surgeons")
    assert (before.list, raised("gap", 1).list) == ("today", "call_now")
    with pytest.raises(Refused):
        raised("sunk", 1)


def test_two_leaks_in_a_day_raise_it_once(ada, stoma, send):
    for hour in ("2026-05-12 10:00", "2026-05-12 20:00", "2026-05-13 01:00"):
        send("care", ada, which=str(stoma.uid), what="leak", at_0=hour)
    assert list(ada.cautions.values_list("sign", flat=True)) == ["two-leaks"]


def test_cautions_stand_on_the_short_forms_too(ada, raised, amber):
    raised("dark-stoma", 1)
    for name, *more in (["output-total"], ["nothing-since"], ["body-event"], ["teaching-state", "paused"]):
        assert "Call now: Stoma dark, dusky or pale." in words(amber.get(reverse(name, args=[ada.uid, *more]))), name


def test_once_somebody_was_told_the_next_telling_is_of_somebody_else(raised, told, ada, amber):
    raised("gap", 5)
    page = words(amber.get(reverse("person", args=[ada.uid])))
    assert "I told somebody" in page and "I told somebody else" not in page
    told("sore-skin", 4)
    assert "I told somebody else" in words(amber.get(reverse("person", args=[ada.uid])))
