"""Cases the sentences leave open, decided as a careful stoma nurse would. Each is a decision of DEVELOPERS.md."""

from story import COSIGNED, MONDAY, OTHER_NURSE, SIGNED_OFF, STOMA_NURSE, STUDENT, WARD_NURSE, Story, at

from teaching.rules.facts import Witness


def alone_twice(code="em-open", **kit):
    return Story(**kit).shows(code, "06", "Mon 10:00").shows(code, "06", "Mon 15:00")


def test_two_raters_of_one_event_both_06_are_one_occasion_even_across_a_handover():
    story = Story().shows("em-open", "06", "Mon 19:20", event="e").shows("em-open", "06", "Mon 19:40", event="e")
    assert story.is_("em-open", "Mon 20:00") == "shown once"


def test_two_raters_of_one_event_who_differ_the_lower_counts_and_the_06_does_not():
    story = alone_twice().shows("em-open", "04", "Mon 20:00", event="e", by=OTHER_NURSE)
    story.shows("em-open", "06", "Mon 20:05", event="e", by=WARD_NURSE)
    standing = story.standing("em-open", "Mon 21:00")
    assert (standing.state, standing.evidence) == ("slipped", ())


def test_two_raters_who_differ_spoil_what_would_be_lent_in_that_event_too():
    story = Story().shows("close", "04", "Mon 10:00", event="e").shows("shut-first", "06", "Mon 10:05", event="e")
    assert story.is_("close", "Mon 11:00") == "learning"


def test_a_students_entry_counts_as_a_showing_and_confirms_only_once_co_signed():
    unsigned = Story().shows("em-open", "06", "Mon 10:00", by=STUDENT).shows("em-open", "06", "Mon 15:00", by=STUDENT)
    assert unsigned.is_("em-open", "Mon 16:00") == "shown, not yet confirmed"
    assert unsigned.shows("em-open", "06", "Mon 20:00", by=COSIGNED).is_("em-open", "Mon 21:00") == "independent"


def test_a_students_lower_rating_counts_without_a_co_signature():
    assert alone_twice().shows("em-open", "03", "Mon 18:00", by=STUDENT).is_("em-open", "Mon 19:00") == "slipped"


def test_a_student_co_signed_by_the_stoma_nurse_is_not_a_sign_off():
    by = Witness("Student", "student", signed_off=True, cosigned_by="stoma-nurse")
    story = Story().shows("off-peel", "06", "Mon 10:00", by=by).shows("off-peel", "06", "Tue 10:00", by=by)
    assert story.is_("off-peel", "Tue 12:00") == "shown, not yet confirmed"


def test_a_student_co_signed_by_a_student_is_not_co_signed():
    by = Witness("Student", "student", cosigned_by="student")
    story = Story().shows("em-open", "06", "Mon 10:00", by=by).shows("em-open", "06", "Mon 15:00", by=by)
    assert story.is_("em-open", "Mon 16:00") == "shown, not yet confirmed"


def test_practice_and_real_may_come_in_either_order():
    real_first = Story().shows("cut", "06", "Mon 10:00", by=SIGNED_OFF).shows("cut", "06", "Tue 10:00", practice=True)
    assert real_first.is_("cut", "Tue 12:00") == "independent"
    real_last = Story().shows("cut", "06", "Mon 10:00", practice=True).shows("cut", "06", "Tue 10:00", by=SIGNED_OFF)
    assert real_last.is_("cut", "Tue 12:00") == "independent"


def test_practice_before_a_real_lower_rating_with_a_reason_stands_no_more():
    story = Story().shows("em-close", "06", "Mon 10:00", practice=True)
    story.shows("em-close", "04", "Mon 15:00", reason="drowsy").shows("em-close", "06", "Mon 20:00")
    assert story.is_("em-close", "Mon 21:00") == "shown once"


def test_practice_does_not_renew_the_date_of_a_one_of_two_row():
    story = alone_twice().shows("em-open", "06", "Wed 10:00", practice=True)
    assert story.is_("em-open", "Wed 16:00") == "show again"
    assert alone_twice("em-close").shows("em-close", "06", "Wed 10:00", practice=True).is_("em-close", "Wed 16:00") == (
        "independent"
    )


def test_a_reopening_before_any_evidence_asks_nothing_more():
    story = Story(outlet="strip").new_kit("Mon 08:00", outlet="clip").state("delirium", "Mon 00:00", "Mon 09:00")
    assert story.is_("em-close", "Mon 09:30") == "not started"
    story.shows("em-close", "06", "Mon 10:00").shows("em-close", "06", "Mon 15:00")
    assert story.is_("em-close", "Mon 16:00") == "independent"


def test_a_closed_pouch_between_two_outlets_of_the_same_kind_reopens_nothing():
    def changed_to(outlet):
        story = alone_twice("em-close", outlet="strip").new_kit("Mon 18:00", closure="closed", outlet="")
        return story.new_kit("Mon 20:00", closure="drainable", outlet=outlet).is_("em-close", "Mon 21:00")

    assert (changed_to("strip"), changed_to("clip")) == ("independent", "show again")


def test_provisional_rows_need_one_real_emptying_once_stool_comes():
    story = Story("colostomy").state("no-stool-yet", "Mon 00:00", "Tue 08:00").arranged("first-stool-call")
    story.shows("em-open", "06", "Mon 10:00", practice=True).shows("em-open", "06", "Mon 15:00", practice=True)
    fallen = story.standing("em-open", "Tue 09:00")
    assert (fallen.state, fallen.provisional, fallen.lack) == ("shown once", False, "gap")
    real = story.shows("em-open", "06", "Tue 12:00").standing("em-open", "Tue 13:00")
    assert (real.state, real.provisional) == ("independent", False)


def test_a_booked_call_that_is_cancelled_no_longer_lets_practice_stand():
    story = Story("colostomy").state("no-stool-yet", "Mon 00:00").arranged("first-stool-call")
    story.shows("em-open", "06", "Mon 10:00", practice=True).shows("em-open", "06", "Mon 15:00", practice=True)
    story.arranged("first-stool-call", "Mon 17:00", state="cancelled")
    assert [story.is_("em-open", when) for when in ("Mon 16:00", "Mon 18:00")] == ["independent", "shown once"]


def test_practice_never_stands_for_high_output_bag_rows():
    story = Story(items=frozenset({"large-bag"})).state("no-stool-yet", "Mon 00:00").arranged("first-stool-call")
    story.shows("ho-join", "06", "Mon 10:00", practice=True).shows("ho-join", "06", "Mon 15:00", practice=True)
    assert story.is_("ho-join", "Mon 16:00") == "shown once"


def test_a_recheck_by_an_assistant_or_unsigned_student_renews_nothing():
    story = alone_twice().recheck("emptying", "Wed 10:00", by=STUDENT)
    assert story.is_("em-open", "Wed 16:00") == "show again"


def test_a_recheck_of_a_row_not_held_yet_renews_nothing():
    story = Story().shows("em-open", "06", "Mon 10:00").recheck("emptying", "Mon 18:00")
    story.shows("em-open", "06", "Tue 10:00", practice=True)
    assert [story.is_("em-open", when) for when in ("Wed 10:00", "Wed 10:01")] == ["independent", "show again"]
    held = story.recheck("emptying", "Tue 18:00")
    assert held.is_("em-open", "Thu 18:00") == "independent"


def test_no_recheck_renews_a_change():
    story = Story().shows("off-peel", "06", "Mon 10:00", by=STOMA_NURSE).shows("off-peel", "06", "Tue 10:00")
    assert story.recheck("change", "Sat 10:00").is_("off-peel", "Wed+1 10:00") == "show again"


def test_a_loss_of_sight_asks_once_after_it_began_for_it_may_be_for_good():
    story = alone_twice().state("sight-loss", "Mon 18:00")
    assert story.is_("em-open", "Mon 19:00") == "show again"
    assert story.shows("em-open", "06", "Mon 20:00").is_("em-open", "Mon 21:00") == "independent"


def test_a_reoperation_touches_every_learner():
    story = Story().helper()
    for when in ("Mon 10:00", "Mon 15:00"):
        story.shows("em-open", "06", when, learner="helper")
    assert story.state("reoperation", "Mon 18:00", "Mon 20:00").is_("em-open", "Mon 21:00", learner="helper") == (
        "show again"
    )


def test_a_finding_seen_by_a_nurse_alone_was_missed_by_nobody():
    story = Story().shows("look-skin", "06", "Mon 10:00", by=STOMA_NURSE).shows("look-skin", "06", "Tue 10:00")
    story.finds("Wed 03:00", "changed asleep", "nurse", skin=(("feet", "wet-raw"),))
    assert story.is_("look-skin", "Wed 08:00") == "independent"


def test_a_showing_in_the_very_event_of_the_missed_finding_does_not_answer_it():
    story = Story().shows("look-skin", "06", "Mon 10:00", by=STOMA_NURSE).shows("look-skin", "06", "Tue 10:00")
    story.shows("look-skin", "06", "Wed 10:05", event="e").finds("Wed 10:00", "e", "nurse", edge="gap")
    assert story.is_("look-skin", "Wed 12:00") == "show again"


def test_a_helper_who_missed_a_finding_is_taught_again_before_they_look():
    story = Story().helper().shows("t-signs", "told", "Mon 10:00", learner="helper")
    story.shows("look-skin", "05", "Tue 10:00", learner="helper", event="e")
    assert story.standing("look-skin", "Tue 12:00", learner="helper").may_look
    story.finds("Tue 10:00", "e", "nurse", skin=(("feet", "spots"),))
    assert not story.standing("look-skin", "Tue 12:00", learner="helper").may_look
    story.shows("t-signs", "told", "Tue 14:00", learner="helper")
    assert story.standing("look-skin", "Tue 15:00", learner="helper").may_look


def test_another_nurse_is_one_who_did_not_do_some_telling_long_enough_before():
    story = Story().shows("t-call", "told", "Mon 08:00").shows("t-call", "own_words", "Mon 14:00", by=OTHER_NURSE)
    story.arranged("first-contact")
    assert story.is_("t-call", "Mon 15:00") == "independent"
    story.shows("t-call", "own_words", "Mon 07:00", by=OTHER_NURSE)  # one more telling takes nothing away
    assert story.is_("t-call", "Mon 15:00") == "independent"


def test_a_lower_rating_with_a_reason_lends_nothing_from_before_it():
    story = Story().shows("em-close", "06", "Mon 10:00").shows("close", "06", "Tue 10:00")
    story.shows("close", "04", "Tue 20:00", reason="rushed").shows("close", "06", "Wed 10:00")
    standing = story.standing("close", "Wed 12:00")
    assert (standing.state, [one.code for one in standing.evidence]) == ("independent", ["close", "close"])


def test_a_showing_of_tomorrow_counts_only_from_then_on():
    story = alone_twice("em-open")
    ahead = Story().shows("em-open", "06", "Mon 10:00").shows("em-open", "06", "Tue 10:00")
    assert ahead.is_("em-open", "Mon 12:00") == "shown once"
    assert ahead.standing("em-open", "Mon 12:00").holds_until == at("Tue 10:00")
    assert story.standing("em-open", "Mon 16:00").holds_until > MONDAY
