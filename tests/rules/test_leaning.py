"""What a good result leans on names the helpers: the fewest that do, each who would do, and nobody besides."""

from teaching.rules.leaning import listed
from teaching.rules.reasons import words
from tests.rules.going_home import ALL_HOURS, BY_DAY, only

BY_NIGHT = "".join("10"[int(hour)] for hour in BY_DAY)


def said(story):
    return [words(one) for one in story.ready().because]


def with_helpers(**weeks):
    story = only("pouch")
    for name, there in weeks.items():
        story.helper(name).comes(name, there).holds("pouch", "change", "topics", learner=name)
    return story


def test_one_helper_is_named_once_for_all():
    assert said(with_helpers(Hugo=ALL_HOURS)) == [
        "It leans on Hugo for a leak, the first change and looking at stoma and skin."]


def test_two_who_would_each_do_are_told_with_or():
    found = said(with_helpers(Hugo=ALL_HOURS, Ines=ALL_HOURS))
    assert found == ["It leans on Hugo or Ines for a leak, the first change and looking at stoma and skin."]


def test_two_who_do_it_only_together_are_told_with_and():
    found = said(with_helpers(Hugo=BY_DAY, Ines=BY_NIGHT))
    assert found[0] == "It leans on Hugo and Ines for a leak."
    assert all("and" not in each.split(" for ")[0] for each in found[1:]), "one of them is there for the change"


def test_whoever_is_not_needed_is_not_named():
    story = with_helpers(Hugo=ALL_HOURS).helper("Ines").comes("Ines", ALL_HOURS)
    assert "Ines" not in " ".join(said(story))


def test_a_list_reads_as_a_sentence():
    assert [listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])] == ["a", "a and b", "a, b and c"]
