"""A helper in words: what both said and when, the hours, and that one who has not agreed is not counted."""

from dataclasses import replace

from teaching.rules.who_helps import helpers_said
from tests.rules.going_home import NOW, Going, at, week


def say(moment):
    return f"{moment:%d %b %H:%M}"


def told(story, now=NOW):
    return list(helpers_said(story.chart, "Ada", at(now), say))


def test_both_yeses_have_their_dates_and_the_hours_stand_beside():
    story = Going().helper("Hugo").comes("Hugo", week("Mon 08-20", "Tue 08-20"), ("Fri 10:00", "Fri 12:00", True))
    assert told(story) == [(
        "Hugo", "Ada said yes 11 May 00:00; Hugo said yes 11 May 00:00; there Mon and Tue 08:00-20:00; "
        "there from 15 May 10:00 to 15 May 12:00")]


def test_a_no_is_private_whosever_it_is():
    for whose in ("helper", "person"):
        story = Going().helper("Hugo")
        no = [replace(one, yes=False, at=at("Tue 09:00")) for one in story.chart.consents if one.whose == whose]
        story.chart = replace(story.chart, consents=(*story.chart.consents, *no))
        assert told(story) == [("Hugo", "not counted until both have said yes; hours not known")]


def test_one_nobody_asked_reads_no_other():
    story = Going().helper("Hugo")
    story.chart = replace(story.chart, consents=())
    assert told(story) == [("Hugo", "not counted until both have said yes; hours not known")]


def test_nobody_helps():
    assert told(Going()) == []
