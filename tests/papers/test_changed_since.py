"""What a cover sheet lists: lines gone and lines new, part by part; a content that was kept reads as one made now."""

import json
from dataclasses import replace
from datetime import timedelta

import pytest

from teaching.papers.changed_since import changes
from tests.papers.homegoers import NOW, PEOPLE, ileostomy, record_of


def kept(story, **more):
    """As it lies in the record: names in the order of the alphabet, lists for tuples."""
    return json.loads(json.dumps(record_of(story, **more).plain, sort_keys=True))


@pytest.mark.parametrize("name", PEOPLE)
def test_the_same_facts_change_nothing(name):
    assert list(changes(kept(PEOPLE[name]()), record_of(PEOPLE[name]()).plain)) == []
    later = record_of(PEOPLE[name](), now=NOW + timedelta(minutes=5)).plain
    assert list(changes(kept(PEOPLE[name]()), later)) == [], "when it was judged is not what it says"


def test_a_lower_rating_is_told_with_its_row_and_what_it_takes_away():
    after = ileostomy().shows("em-close", "04", "Wed 17:00")
    found = {change.title: change for change in changes(kept(ileostomy()), record_of(after).plain)}
    assert set(found) >= {"Steps and topics", "What the result leans on"}
    row = "Ada Fernhollow: Emptying: Shut the outlet and check it"
    assert f"{row}: independent" in found["Steps and topics"].gone
    assert any(line.startswith(f"{row}: slipped") for line in found["Steps and topics"].new)


def test_a_visit_taken_back_is_told():
    after = ileostomy()
    after.chart = replace(after.chart, visits=())
    (change,) = [one for one in changes(kept(ileostomy()), record_of(after).plain) if one.title == "Nurses' visits"]
    assert change.gone == ("Fri 15 May 10:00: to change the pouch, accepted by Nurse Example",)
    assert change.new == ()
