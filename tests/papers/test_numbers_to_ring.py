"""No sheet for home prints what nobody can ring, such as a number stored before numbers were looked over."""

import pytest

from teaching.papers.take_home import blocked
from teaching.papers.take_home_facts import not_rung, number_to_ring, of_stay
from teaching.papers.take_home_sheets import take_home_pdf
from teaching.rules.reasons import words as words_of
from teaching.rules.spoken import rung
from tests.papers.homegoers import NOW, PHONES, SLOTS, ileostomy, judged, sheet_of
from tests.papers.reading import words


def holes(story, slots):
    return [one.words for one in blocked(story.chart, NOW, slots)]


@pytest.mark.parametrize("number", ["ask the porter", "call 12", "--none--"])
def test_a_number_that_nobody_can_ring_is_never_printed_and_blocks_the_sheet(number):
    story = ileostomy().all_else(but=("number",)).arranged("number", phone=number, day_and_night=True)
    said = f'Nobody can ring "{number}": write the number to ring, day and night, with its digits.'
    assert holes(story, SLOTS) == [said]
    assert number_to_ring(story.chart, NOW) == ""
    gaps = [words_of(gap.reason) for gap in judged(story)[1].gaps]
    assert "A number to ring, day and night: still to be written down: Number." in gaps
    assert number not in " ".join(words(take_home_pdf(sheet_of(story))))
    mended = story.arranged("number", when="Tue 00:00", phone="112", day_and_night=True)
    assert (holes(mended, SLOTS), number_to_ring(mended.chart, NOW)) == ([], "112")


def test_a_leak_service_that_nobody_can_ring_gives_way_to_the_number():
    story = ileostomy().arranged("leak-service", when="Tue 00:00", answers_hours=2, day_and_night=True, phone="desk")
    assert of_stay(story.chart, story.policy, NOW, SLOTS)["leak_phone"] == "000"


def test_of_the_units_numbers_only_those_that_can_be_rung_are_printed_and_it_says_which_is_not():
    phones = (*PHONES, ("Night desk", "ask the porter", "nights"))
    assert rung(phones) == PHONES
    assert not_rung(PHONES) == ""
    said = "Left off, as nobody can ring what is written down: Night desk. The unit lead writes the number."
    assert not_rung(phones) == said
