"""What must hold of readiness for any story, searched for counterexamples; and cover against counting hour by hour."""

from dataclasses import replace
from datetime import timedelta
from itertools import chain, combinations

from going_home import Going, judge
from hypothesis import given, settings
from hypothesis import strategies as st
from story import SIGNED_OFF, at

from teaching.rules.cover import full_sets
from teaching.rules.facts import Caution, Consent
from teaching.rules.policy import DEFAULT
from teaching.rules.readiness import RESULTS
from teaching.rules.standing import TICK

NOW = at("Wed 18:00")
PARTS = ("pouch", "night", "change", "topics")
HOME = RESULTS[:3]
hours = st.lists(st.booleans(), min_size=28, max_size=28).map(
    lambda shifts: "".join("111111" if there else "000000" for there in shifts)
)
held = st.one_of(  # mostly nearly all of it, so that every result is reached
    st.just(PARTS), st.sampled_from(PARTS).map(lambda one: tuple(part for part in PARTS if part != one)),
    st.sets(st.sampled_from(PARTS)).map(sorted),
)  # fmt: skip
week_hours = st.one_of(st.just("1" * 168), hours)
moments = st.integers(0, 9 * 24).map(lambda number: at("Mon 00:00") + timedelta(hours=number))
HELPERS = ("wife", "son")


def rank(found):
    return RESULTS.index(found.result)


@st.composite
def charts(draw):
    kind = draw(st.sampled_from(["ileostomy", "urostomy"]))
    kit = {"outlet": "tap", "items": frozenset({"night-bag"})} if kind == "urostomy" else {}
    story = Going(kind, interval_hours=draw(st.sampled_from([72, 48, 96, 168, None])), **kit)
    story.holds(*draw(held))
    if draw(st.booleans()):
        story.care("change", draw(st.sampled_from(["Wed 09:00", "Tue 20:00"])), draw(st.sampled_from(["", "leak"])))
    if draw(st.integers(0, 3)) == 2:
        story.holds("change", answer="05", by=SIGNED_OFF)
    for helper in draw(st.sets(st.sampled_from(HELPERS))):
        story.helper(helper, agreed=draw(st.sampled_from([True, True, False]))).comes(helper, draw(week_hours))
        story.holds(*draw(held), learner=helper)
    for each in draw(st.lists(moments, max_size=2)):
        story.visit(f"{each:%a} {each:%H:%M}" if each < at("Mon+1 00:00") else f"{each:%a}+1 {each:%H:%M}",
                    for_change=draw(st.booleans()))  # fmt: skip
    if draw(st.integers(0, 4)) == 3:
        story.shows(story.rows("pouch"), draw(st.sampled_from(["10", "88", "04"])), "Wed 12:00")
    story.all_else(draw(st.sets(st.sampled_from(["leak-service", "number"]), max_size=1)))
    if draw(st.integers(0, 9)) == 7:
        story.chart = replace(story.chart, planned_at=None)
    return story.chart


def ready(chart, now=NOW):
    return judge(chart, DEFAULT, now)


@settings(max_examples=300, deadline=None)
@given(charts())
def test_a_result_is_never_without_its_reasons(chart):
    found = ready(chart)
    assert found.result in RESULTS
    assert bool(found.gaps) == (found.result == "not yet")
    assert found.missing or found.result != "cannot say"
    assert found.because or found.result not in HOME
    assert all(gap.ways for gap in found.gaps), found.gaps


@settings(max_examples=300, deadline=None)
@given(charts(), hours)
def test_more_hours_for_a_helper_never_worsen_it(chart, more):
    def longer(one):
        if one.kind == "person" or "1" not in one.week:
            return one
        return replace(one, week="".join(max(pair) for pair in zip(one.week, more, strict=True)))

    other = replace(chart, learners=tuple(longer(one) for one in chart.learners))
    assert rank(ready(other)) <= rank(ready(chart))


@settings(max_examples=300, deadline=None)
@given(charts(), st.sampled_from(HELPERS), st.sampled_from(["person", "helper"]))
def test_consent_taken_back_never_improves_it(chart, helper, whose):
    back = replace(chart, consents=(*chart.consents, Consent(helper, whose, False, NOW - timedelta(hours=1))))
    assert rank(ready(back)) >= rank(ready(chart))


@settings(max_examples=200, deadline=None)
@given(charts(), st.sampled_from(DEFAULT.signs), st.booleans(), st.booleans())
def test_a_caution_more_never_improves_it(chart, sign, told, settled):
    caution = Caution(
        "more", sign.code, sign.list, "A sign", NOW - timedelta(hours=3), "s",
        told=NOW - timedelta(hours=2) if told else None, settled=NOW - timedelta(hours=1) if settled else None,
    )  # fmt: skip
    found = ready(replace(chart, cautions=(caution,)))
    assert rank(found) >= rank(ready(chart))
    if sign.list == "call_now" and not (told and settled):
        assert found.result == "not yet"


@settings(max_examples=200, deadline=None)
@given(charts())
def test_a_visit_or_an_arrangement_taken_away_never_improves_it(chart):
    was = rank(ready(chart))
    assert rank(ready(replace(chart, visits=chart.visits[1:]))) >= was
    for code in {one.code for one in chart.arrangements}:
        kept = tuple(one for one in chart.arrangements if one.code != code)
        assert rank(ready(replace(chart, arrangements=kept))) >= was


@settings(max_examples=150, deadline=None)
@given(charts(), st.randoms(use_true_random=False))
def test_the_order_of_entry_does_not_matter(chart, random):
    ratings = list(chart.ratings)
    random.shuffle(ratings)
    other = replace(
        chart, ratings=tuple(ratings), learners=chart.learners[::-1], visits=chart.visits[::-1],
        consents=chart.consents[::-1], arrangements=chart.arrangements[::-1], care=chart.care[::-1],
    )  # fmt: skip
    first, second = ready(chart), ready(other)
    assert (first.result, first.gaps, first.missing, first.stomas, first.cover) == (
        second.result, second.gaps, second.missing, second.stomas, second.cover,
    )  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(charts(), st.integers(0, 6 * 24 * 60), st.floats(0, 1, exclude_max=True))
def test_the_answer_is_the_same_until_it_no_longer_holds(chart, minutes, share):
    now = at("Wed 12:30") + timedelta(minutes=minutes)
    first = ready(chart, now)
    until = first.holds_until or now + timedelta(days=400)
    later = ready(chart, min(now + (until - now) * share, until - TICK))
    assert replace(later, at=first.at) == first


@settings(max_examples=150, deadline=None)
@given(charts())
def test_without_anybody_who_empties_nobody_is_ready_for_home(chart):
    """The hard minimum: every showing of emptying is taken away; then no visit and no arrangement makes up for it."""
    lenders = ("em-", "ue-", "cl-o")
    left = tuple(one for one in chart.ratings if not one.code.startswith(lenders))
    assert ready(replace(chart, ratings=left)).result not in HOME


@settings(max_examples=200, deadline=None)
@given(st.dictionaries(st.sampled_from("abcd"), st.integers(0, 255)), st.integers(0, 255))
def test_the_smallest_sets_are_those_that_counting_finds(held, wanted):
    enough = [
        frozenset(group)
        for group in chain.from_iterable(combinations(sorted(held), size) for size in range(len(held) + 1))
        if all(any(held[key] >> bit & 1 for key in group) for bit in range(8) if wanted >> bit & 1)
    ]
    smallest = [group for group in enough if not any(other < group for other in enough)]
    assert set(full_sets(held, wanted)) == set(smallest)
