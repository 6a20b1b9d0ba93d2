"""One row that nobody rated yet does not make a procedure "not started"; not rated is not zero."""

import pytest
from story import Story, at

from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT
from teaching.rules.progress import begun_words


def emptying(story, when="Mon 16:00"):
    """(the state that `assess` gives the procedure, how it is said)."""
    found = assess(story.chart, DEFAULT, at(when))
    one = next(one for one in found.conclusions if one.procedure == "emptying")
    return one.state, begun_words(found, one)


FOUR = "em-when em-open em-wipe em-close"


@pytest.mark.parametrize(
    ("name", "story", "said"),
    [
        ("one row unrated", Story().shows(FOUR, "04", "Mon 10:00"), "begun, 4 of 5 steps seen"),
        ("two of four held", Story().shows("em-when em-open", "06", "Mon 10:00").shows(FOUR, "06", "Mon 15:00"),
         "begun, 4 of 5 steps seen, 2 held"),
        ("declined is not seen, and not zero", Story().shows(FOUR, "07", "Mon 10:00"),
         "begun, none of 5 steps seen yet"),
        ("one declined of four seen", Story().shows("em-when em-open em-wipe", "04", "Mon 10:00")
         .shows("em-close", "07", "Mon 10:00"), "begun, 3 of 5 steps seen"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_begun_in_words_a_nurse_would_use(name, story, said):
    assert emptying(story) == ("not started", said)


def test_nothing_begun_or_every_row_seen_says_nothing():
    assert emptying(Story()) == ("not started", "")
    whole = Story().shows(f"{FOUR} em-hands", "04", "Mon 10:00")
    assert emptying(whole) == ("learning", "")
