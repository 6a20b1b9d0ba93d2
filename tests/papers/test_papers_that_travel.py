"""Whatever leaves the ward says dates: "tomorrow" is wrong a day later. The transfer form has its own test."""

import re

import pytest

from teaching.papers.against_plan_sheets import against_plan_pdf
from teaching.papers.take_home_sheets import take_home_pdf
from tests.papers.homegoers import PEOPLE, at, leaving_of, sheet_of
from tests.papers.reading import words

RELATIVE = re.compile(r"\b(today|tomorrow|yesterday|day \d+|ago)\b", re.IGNORECASE)
NAMES = re.compile("Ring us today|Stoma nurse today")  # of a list of signs


@pytest.mark.parametrize("kind", PEOPLE)
@pytest.mark.parametrize(("drawn", "printed"), [(sheet_of, take_home_pdf), (leaving_of, against_plan_pdf)])
def test_it_says_no_day_that_is_wrong_tomorrow(kind, drawn, printed):
    story = PEOPLE[kind]().visit("Thu 16:00")
    story.caution("output-today", "Tue 17:00", words="Output 1500 mL or more in 24 hours")
    story.caution("gap", "Wed 09:00", told="Wed 10:00", words="A gap at the edge of the stoma")
    said = " ".join(words(printed(drawn(story, now=at("Wed 18:00")))))
    assert RELATIVE.findall(NAMES.sub("", said)) == []
