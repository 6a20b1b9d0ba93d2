"""The readiness record drawn from content beside an equal static page: the same HTML, already written."""

import pytest
from django.template.loader import render_to_string

from teaching.papers.printing import pdf_of
from teaching.papers.readiness_sheets import WORDS, readiness_pdf
from tests.benchmarks.measuring import in_turns, say
from tests.papers.homegoers import ileostomy, record_of

BOUND = 1.3


@pytest.mark.benchmark
def test_the_readiness_record_takes_at_most_a_third_more_than_its_static_page():
    """Ours from the chart on: rules, content, template and PDF; the floor prints the finished HTML."""
    story = ileostomy()
    html = render_to_string("teaching/papers/readiness_record.html", {"paper": record_of(story), **WORDS})
    sizes = len(readiness_pdf(record_of(story))), len(pdf_of(html))
    assert sizes[0] == pytest.approx(sizes[1], rel=0.01)
    ours, floor = in_turns(lambda: readiness_pdf(record_of(story)), lambda: pdf_of(html), rounds=9)
    say(f"readiness record of 4 pages: {ours:.0f} ms, the same page static {floor:.0f} ms, "
        f"ratio {ours / floor:.2f} (at most {BOUND})")  # fmt: skip
    assert ours / floor <= BOUND
