"""What was required then, and what a sign-off rested on: as it was known then, whatever is known now."""

from dataclasses import replace
from datetime import timedelta

from teaching.rules.competence_facts import Nurse
from teaching.rules.policy import DEFAULT
from teaching.rules.skill_history import History, Published, Written, in_span, renewed, required_of, rested_on
from tests.rules.competence_story import day, granted, seen, skill

LONGER = DEFAULT.with_overrides({"sign_off_lasts": 24})
OLD, NEW = skill(1), skill(2, practices=2, at_five=1)
SIGNED = granted(1, day(300), from_=10)


def history(practices=(), policies=(), **late):
    """Every practice was written at its own hour, but for those named: p3=(written, taken back or None), in days."""
    written = {each.key: Written(each.at) for each in practices}
    written |= {key: Written(day(at), None if gone is None else day(gone)) for key, (at, gone) in late.items()}
    return History((Published(OLD, day(-100)), Published(NEW, day(20))), tuple(policies), written)


def based_on(*practices, sign_offs=(SIGNED,), of=SIGNED, **late):
    nurse = Nurse("n", "Basil Thorne", "registered", practices, sign_offs)
    return [each.key for each in rested_on(nurse, OLD, of, history(practices, **late))]


def required(version, at, policies=()):
    return required_of(history(policies=policies), "change", version, "Do a change", day(at))


def test_a_version_keeps_its_own_numbers_when_a_later_one_is_published():
    assert (required(1, 30).practices, required(1, 30).at_five) == (3, 2)
    assert (required(2, 30).practices, required(2, 30).at_five) == (2, 1)


def test_the_policy_is_the_one_of_that_moment_to_the_second():
    policies = [(day(5), LONGER), (day(40), DEFAULT)]
    assert [required(1, at, policies).lasts for at in (4, 5, 39, 40)] == [12, 24, 24, 12]
    before = required_of(history(policies=policies), "change", 1, "Do a change", day(5) - timedelta(seconds=1))
    assert (before.lasts, before.policy) == (12, DEFAULT.version)


def test_a_certificate_has_no_version_and_only_the_longest_end():
    told = required(None, 1)
    assert (told.version, told.published, told.practices, told.longest) == (None, None, 0, 36)


def test_it_rests_on_what_was_seen_before_it_oldest_first():
    assert based_on(seen(9), seen(7), seen(3), seen(12)) == ["p3", "p7", "p9"]


def test_a_practice_of_before_that_was_written_down_after_is_no_basis():
    assert based_on(seen(3), seen(7), seen(9), p9=(11, None)) == ["p3", "p7"]


def test_one_taken_back_before_was_no_basis_and_one_taken_back_later_was():
    gone, later = seen(5, taken_back=True), seen(9, taken_back=True)
    assert based_on(seen(3), gone, later, p5=(5, 6), p9=(9, 20)) == ["p3", "p9"]


def test_after_an_earlier_sign_off_only_what_came_later_is_a_basis():
    first, second = granted(1, day(300), from_=4), granted(2, day(400), from_=10)
    assert based_on(seen(3), seen(9), sign_offs=(first, second), of=second) == ["p9"]
    nurse = Nurse("n", "Basil Thorne", "registered", (), (first, second))
    assert (renewed(nurse, first), renewed(nurse, second)) == (False, True)


def test_after_a_lapse_it_is_signed_off_anew_and_not_renewed():
    first, second = granted(1, day(8), from_=4), granted(2, day(400), from_=10)
    nurse = Nurse("n", "Basil Thorne", "registered", (), (first, second))
    assert not renewed(nurse, second)


def test_a_certificate_and_a_withdrawal_rest_on_no_practice():
    assert based_on(seen(3), sign_offs=(), of=granted(1, day(300), from_=10, certificate="Made-up college")) == []


def test_a_certificate_accepted_later_ends_the_one_before_only_then():
    """Valid from long before, on record from day 40: until then the first one ran."""
    first = granted(1, day(300), 0)
    elsewhere = replace(granted(2, day(400), -100, certificate="County school"), written_at=day(40))
    nurse = Nurse("n", "Basil Thorne", "registered", (), (first, elsewhere))
    assert in_span(nurse, first, day(10), day(20))
    assert not in_span(nurse, first, day(41), day(50))
