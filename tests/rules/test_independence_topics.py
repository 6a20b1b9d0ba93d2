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


def through(interpreter, *needs, language="en", who="person"):
    """Told on Monday, said back on Tuesday through somebody, by a learner with these needs."""
    story = Story().helper("daughter", needs=needs if who == "daughter" else ())
    story.needs(*(needs if who == "person" else ()))
    story.chart = replace(story.chart, language=language)
    story.shows("t-call", "told", "Mon 10:00", learner=who)
    story.shows("t-call", "own_words", "Tue 10:00", learner=who, interpreter=interpreter)
    return story.is_("t-call", "Tue 12:00", learner=who)


def test_i16_a_child_or_family_never_explains_for_anybody():
    """Whoever was interpreted for needed an interpreter, ticked or not."""
    assert [through(who) for who in ("child", "adult")] == ["shown once"] * 2
    assert [through(who, who="daughter") for who in ("child", "adult")] == ["shown once"] * 2
    assert [through(who) for who in ("trained", "none", "")] == ["independent"] * 3


def test_i16_another_language_needs_a_trained_interpreter_too():
    said = [through(who, "language") for who in ("trained", "adult", "child", "none", "")]
    assert said == ["independent"] + ["shown once"] * 4


def test_i16_a_language_to_teach_in_that_is_not_the_wards_needs_one_though_no_need_is_ticked():
    said = [through(who, language="pl") for who in ("trained", "adult", "child", "none", "")]
    assert said == ["independent"] + ["shown once"] * 4


def test_i16_the_language_of_the_person_says_nothing_of_a_helper():
    assert through("", language="pl", who="daughter") == "independent"
    assert through("", "language", language="pl", who="daughter") == "shown once"
