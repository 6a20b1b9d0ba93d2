"""Sentence I16: told is not explained. 4 hours: common practice, no source; 72 h: NHS Northern Care Alliance."""

from dataclasses import replace

from story import OTHER_NURSE, Story, at


def told(when="Mon 10:00", **more):
    return Story(**more).shows("t-call", "told", when)


def test_i16_told_is_not_explained():
    assert told().is_("t-call", "Wed 10:00") == "learning"


def test_i16_the_first_entry_even_in_own_words_is_the_telling():
    once = Story().shows("t-call", "own_words", "Mon 10:00")
    assert once.is_("t-call", "Wed 10:00") == "shown once"
    assert once.shows("t-call", "own_words", "Tue 10:00").is_("t-call", "Wed 10:00") == "independent"


def test_i16_four_hours_after_across_midnight_too():
    assert told("Mon 22:00").shows("t-call", "own_words", "Tue 01:59").is_("t-call", "Tue 12:00") == "shown once"
    assert told("Mon 22:00").shows("t-call", "own_words", "Tue 02:00").is_("t-call", "Tue 12:00") == "independent"


def test_i16_same_date_needs_another_nurse_and_a_call_booked():
    same_nurse = told().shows("t-call", "own_words", "Mon 15:00").arranged("first-contact")
    assert same_nurse.is_("t-call", "Mon 16:00") == "shown once"
    another = told().shows("t-call", "own_words", "Mon 15:00", by=OTHER_NURSE)
    assert another.is_("t-call", "Mon 16:00") == "shown once"
    assert another.arranged("first-contact").is_("t-call", "Mon 16:00") == "independent"
    too_soon = told().shows("t-call", "own_words", "Mon 13:59", by=OTHER_NURSE).arranged("first-contact")
    assert too_soon.is_("t-call", "Mon 16:00") == "shown once"


def test_i16_the_call_must_be_within_72_hours_of_leaving():
    def called(due):
        story = told().shows("t-call", "own_words", "Mon 15:00", by=OTHER_NURSE).leaving("Tue 12:00")
        return story.arranged("first-contact", due=due).is_("t-call", "Mon 16:00")

    assert called("Fri 12:00") == "independent"
    assert called("Fri 12:01") == "shown once"
    assert called("Tue 11:59") == "shown once"


def test_i16_telling_before_surgery_counts_as_one():
    story = told("Mon 10:00").shows("t-call", "own_words", "Thu 10:00")
    story.chart = replace(story.chart, surgery_at=at("Wed 10:00"))
    assert story.is_("t-call", "Thu 12:00") == "independent"


def test_i16_a_later_not_yet_undoes_it():
    story = told().shows("t-call", "own_words", "Tue 10:00").shows("t-call", "not_yet", "Wed 10:00")
    assert story.is_("t-call", "Wed 12:00") == "slipped"
    assert story.shows("t-call", "own_words", "Thu 10:00").is_("t-call", "Thu 12:00") == "independent"


def test_i16_only_a_trained_interpreter_counts_where_one_is_needed():
    def through(interpreter):
        story = told().needs("interpreter").shows("t-call", "own_words", "Tue 10:00", interpreter=interpreter)
        return story.is_("t-call", "Tue 12:00")

    assert [through(who) for who in ("trained", "adult", "child", "none", "")] == ["independent"] + ["shown once"] * 4
