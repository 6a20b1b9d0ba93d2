"""Bondy KN. Criterion-referenced definitions for rating scales in clinical evaluation. J Nurs Educ 1983;22(9):376-382.

The five labels, their order and X are published. That cues fall and safety rises from level to level is published
too; the wording of each level here is our own, so only its direction is checked.
"""

import json
from pathlib import Path

from teaching.rules.vocabulary import BONDY, INDEPENDENTLY

SKILLS = json.loads((Path(__file__).parents[2] / "fixtures" / "skills-1.json").read_text(encoding="utf-8"))
PUBLISHED = [(5, "Independent"), (4, "Supervised"), (3, "Assisted"), (2, "Marginal"), (1, "Dependent")]
CUES = {"5": "without a cue", "4": "occasional cue", "3": "frequent cues", "2": "cues all the time", "1": "cues all"}


def test_five_levels_and_not_observed_in_bondys_order():
    told = [(code, level.name) for code, level in BONDY.items()]
    assert told == [(str(code), name) for code, name in PUBLISHED] + [("X", "Not observed")]
    assert BONDY[INDEPENDENTLY].name == "Independent"


def test_cues_fall_and_only_the_lowest_is_not_safe():
    for code, said in CUES.items():
        assert said in BONDY[code].words
        assert BONDY[code].words.startswith("Not safe" if code == "1" else "Safe")


def test_how_often_says_that_it_is_common_practice():
    """Observed practices before a sign-off: 1 to 3, common practice, no source; our default is 3, the last two at 5."""
    assert set(SKILLS["sources"].values()) == {"C"}
    for each in SKILLS["skills"]:
        assert (each["practices"], each["at_five"]) == (3, 2)
    assert "no published number" in SKILLS["about"]["en"].lower()
