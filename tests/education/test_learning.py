"""The unit's learning and agreement on screen, from made-up stays: counts first, floors kept, nobody named or shown."""

import re

import pytest
from django.urls import reverse
from django.utils import timezone

from teaching.record.past_stays import record_past_stays
from tests.bedside.reading import words
from tests.bedside.ward import build_ward
from tests.benchmarks.made_up_unit import made_up_stays


@pytest.fixture
def unit_of(db, client):
    """unit_of(40) is a ward with so many finished stays, and Edda, its educator, signed in."""

    def made(count, paired=0.5):
        now = timezone.now()
        ward = build_ward(now)
        nurses = [ward.staff[name].clinician for name in ("amber", "basil")]
        past = made_up_stays(ward.unit, nurses, count, now, paired=paired)
        record_past_stays(actor=ward.staff["linden"], unit=ward.unit, stays=past)
        client.force_login(ward.user("edda"))
        return ward

    return made


@pytest.fixture
def read(client):
    return lambda name, ward: client.get(reverse(name, args=[ward.unit.uid]))


def test_below_the_floor_there_are_counts_and_no_curve(unit_of, read):
    page = read("learning", unit_of(12))
    assert "10 stays" in words(page), "two wait for three more: the figures move on by fives"
    assert "The figures move on when 5 more have left" in words(page)
    assert "shown from 30 stays on" in words(page)
    assert b'class="plot"' not in page.content
    assert b'class="interval"' not in page.content


def test_before_five_have_left_there_is_nothing(unit_of, read):
    told = words(read("learning", unit_of(4)))
    assert "No figures yet" in told and "Figures are shown once 5 people have left." in told
    assert " 0 stays" not in told, "four have left: not shown is not zero"


def test_past_the_floor_curves_months_and_ranges_with_a_table_behind_each(unit_of, read):
    page = read("learning", unit_of(40))
    told = words(page)
    assert "40 stays" in told
    assert "Which steps fail first" in told
    assert page.content.count(b'class="plot"') >= 1
    assert told.count("The same as a table") >= 1
    assert all(b"<title>" in drawn for drawn in re.findall(rb"<svg.*?</svg>", page.content, re.S))


def test_the_hardest_step_stands_before_the_easiest(unit_of, read):
    """The simulator makes cutting hardest and peeling easy."""
    told = words(read("learning", unit_of(60)))
    assert told.index("Cut the hole") < told.index("Peel it off")


def test_agreement_is_hidden_under_twenty_paired_sessions(unit_of, read):
    told = words(read("agreement", unit_of(10, paired=0.0)))
    assert "0 sessions rated by two" in told
    assert "Shown from 20 sessions" in told
    assert "kappa" not in told


def test_agreement_shows_three_figures_and_the_rows_to_talk_about(unit_of, read):
    told = words(read("agreement", unit_of(40)))
    for name in ("Same level", "Weighted kappa", "AC2", "Difference", "For a huddle"):
        assert name in told


@pytest.mark.parametrize("name", ["learning", "agreement"])
def test_nobody_is_named_and_no_chart_is_a_step_away(unit_of, read, client, name):
    ward = unit_of(40)
    page = read(name, ward)
    told = words(page)
    for who in ("Amber", "Basil", "Linden", "Madeup", "Nr 1", "sim-"):
        assert who not in told
    assert b"/stays/" not in page.content
    stay = ward.stay("Ada", "Fernhollow", "Z9")
    assert client.get(reverse("person", args=[stay.uid])).status_code == 403


@pytest.mark.parametrize("count", [5, 45])
@pytest.mark.parametrize(("name", "budget"), [("learning", 12), ("agreement", 10)])
def test_queries_do_not_grow_with_stays(unit_of, read, assert_selects, name, budget, count):
    ward = unit_of(count)
    read(name, ward)
    with assert_selects(budget):
        read(name, ward)
