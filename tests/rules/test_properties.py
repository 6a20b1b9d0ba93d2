"""What must hold for any story, not only for those told: properties, searched for counterexamples."""

from dataclasses import replace
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from story import ASSISTANT, COSIGNED, MONDAY, SIGNED_OFF, STOMA_NURSE, STUDENT, WARD_NURSE, Story

from teaching.rules.assess import assess
from teaching.rules.cautions import settling_faults
from teaching.rules.facts import Care, Caution, Rating
from teaching.rules.policy import DEFAULT
from teaching.rules.standing import TICK

ROWS = ("em-open", "em-close", "close", "shut-first", "off-peel", "look-skin", "powder")
KIT = {"items": frozenset({"powder"})}
NOW = MONDAY + timedelta(days=9)
witnesses = st.sampled_from([WARD_NURSE, SIGNED_OFF, STOMA_NURSE, STUDENT, COSIGNED, ASSISTANT])
moments = st.integers(0, 9 * 24 - 1).map(lambda hours: MONDAY + timedelta(hours=hours))


@st.composite
def ratings(draw, answers=("06", "05", "04", "01", "07", "10", "88", "right", "not_needed", "wrong")):
    at = draw(moments)
    return Rating(
        "s",
        draw(st.sampled_from(ROWS)),
        "person",
        draw(st.sampled_from(answers)),
        at,
        draw(st.sampled_from([f"{at:%d %H}", f"paired on {at:%d}"])),
        draw(witnesses),
        practice=draw(st.booleans()),
        reason=draw(st.sampled_from(["", "", "drowsy"])),
    )


@st.composite
def charts(draw):
    story = Story("ileostomy", **KIT)
    if draw(st.booleans()):
        story.new_kit("Thu 12:00", outlet="clip")
    if draw(st.booleans()):
        story.state("delirium", "Tue 12:00", "Wed 12:00")
    if draw(st.booleans()):
        story.state("no-stool-yet", "Mon 00:00").arranged("first-stool-call")
    return replace(story.chart, ratings=tuple(draw(st.lists(ratings(), max_size=14))))


def standings(chart, now=NOW):
    return {one.code: one for one in assess(chart, DEFAULT, now).standings if one.code in ROWS}


def states(chart, now=NOW):
    return {code: one.state for code, one in standings(chart, now).items()}


def same(one, other):
    """Said row by row, so that a counterexample can be read."""
    for mine, theirs in zip(one.standings, other.standings, strict=True):
        assert (mine.code, mine.state, mine.reasons, mine.second_floor, mine.lack) == (
            theirs.code,
            theirs.state,
            theirs.reasons,
            theirs.second_floor,
            theirs.lack,
        )
        assert [rating.at for rating in mine.evidence] == [rating.at for rating in theirs.evidence]
    assert one.stands_out == other.stands_out
    assert [aim.code for aim in one.aims] == [aim.code for aim in other.aims]


@settings(max_examples=400, deadline=None)
@given(charts(), ratings(answers=("06", "right", "not_needed")))
def test_one_more_showing_never_lowers_a_row(chart, more):
    before, after = standings(chart), standings(replace(chart, ratings=(*chart.ratings, replace(more, reason=""))))
    for code, was in before.items():
        assert after[code].held or not was.held, f"{code} was held and is {after[code].state}"
        assert after[code].second_floor or not was.second_floor


@settings(max_examples=200, deadline=None)
@given(charts(), ratings(answers=("07", "10", "88")), ratings(), moments)
def test_not_rated_reported_and_care_change_no_row(chart, not_rated, reported, at):
    more = replace(
        chart,
        ratings=(*chart.ratings, not_rated, replace(reported, reported=True)),
        care=(Care("s", "change", at, "care", "leak"), Care("s", "emptying", at, "more care")),
    )
    assert states(more) == states(chart)


@settings(max_examples=200, deadline=None)
@given(charts(), st.randoms(use_true_random=False))
def test_the_order_of_entry_does_not_matter(chart, random):
    shuffled = list(chart.ratings)
    random.shuffle(shuffled)
    other = replace(
        chart,
        ratings=tuple(shuffled),
        kits=chart.kits[::-1],
        body_events=chart.body_events[::-1],
        checklist=chart.checklist,
    )
    same(assess(other, DEFAULT, NOW), assess(chart, DEFAULT, NOW))


@st.composite
def talks(draw):
    """What was said of one topic, in hours of three days, so that dates and the four hours both matter."""
    at = MONDAY + timedelta(hours=draw(st.integers(0, 71)))
    answer = draw(st.sampled_from(["told", "own_words", "not_yet"]))
    return Rating("s", "t-call", "person", answer, at, f"{at:%d %H}", draw(witnesses))


@settings(max_examples=300, deadline=None)
@given(st.lists(talks(), max_size=6), talks(), st.booleans())
def test_one_more_saying_never_takes_an_explanation_away(said, more, call):
    story = Story().arranged("first-contact") if call else Story()
    before = replace(story.chart, ratings=tuple(said))
    after = replace(before, ratings=(*said, replace(more, answer="own_words", event="one more")))
    held = [{one.code: one.held for one in assess(chart, DEFAULT, NOW).standings} for chart in (before, after)]
    assert held[1]["t-call"] or not held[0]["t-call"]


@settings(max_examples=300, deadline=None)
@given(charts(), ratings(answers=("06",)), st.sampled_from(ROWS[:-1]), st.sampled_from(["", "drowsy"]), st.booleans())
def test_practice_never_beats_a_real_lower_rating_made_after_it(chart, practice, code, reason, again):
    last = max((one.at for one in chart.ratings), default=MONDAY)
    lower_at = max(last, practice.at) + timedelta(hours=1)
    lower = Rating("s", code, "person", "03", lower_at, "lower", WARD_NURSE, reason=reason)
    alone = Rating("s", code, "person", "06", lower_at + timedelta(hours=5), "alone", STOMA_NURSE)
    without = replace(chart, ratings=(*chart.ratings, lower, *([alone] if again else [])))
    practised = replace(practice, code=code, practice=True, reason="", event="practised")
    with_practice = replace(without, ratings=(*without.ratings, practised))
    now = lower_at + timedelta(hours=6)
    mine, theirs = standings(with_practice, now)[code], standings(without, now)[code]
    assert (mine.held, mine.second_floor, mine.evidence) == (theirs.held, theirs.second_floor, theirs.evidence)
    assert again or not mine.held


@settings(max_examples=200, deadline=None)
@given(charts(), st.integers(0, 9 * 24), st.floats(0, 1, exclude_max=True))
def test_the_answer_is_the_same_until_it_no_longer_holds(chart, hours, share):
    now = MONDAY + timedelta(hours=hours)
    first = assess(chart, DEFAULT, now)
    until = first.holds_until or now + timedelta(days=400)
    later = assess(chart, DEFAULT, min(now + (until - now) * share, until - TICK))
    same(first, later)


@given(moments, moments)
def test_settled_is_never_earlier_than_told(told, settled):
    caution = Caution("c", "gap", "today", "A gap", MONDAY, told=told)
    assert bool(settling_faults(caution, settled)) == (settled < told)
    assert settling_faults(replace(caution, told=None), settled)
